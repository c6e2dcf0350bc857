using System.Buffers.Binary;
using Bench.Model.BenchFiles;

namespace Bench.Devices.Modbus.Server;

/// <summary>
/// One device as a Modbus master sees it: handlers for each address it has. Answers requests after
/// Application Protocol V1.1b3: function checked first (01), then quantity and value (03), then address (02),
/// then the work itself (04). Nothing is written unless every address of the request can be.
/// </summary>
public sealed class RegisterMap
{
    private readonly Dictionary<(RegisterTable Table, int Address), Func<int>> _reads = [];
    private readonly Dictionary<(RegisterTable Table, int Address), Action<int>> _writes = [];

    /// <summary>
    /// Gives an address a value to read: a bit (0 is off, all else on) or a word (its low 16 bits are sent).
    /// A handler that throws <see cref="DeviceRefusalException"/> is answered with that exception, one that throws any
    /// other <see cref="InvalidOperationException"/> as a device failure (04).
    /// </summary>
    public RegisterMap OnRead(RegisterTable table, int address, Func<int> read)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(address, (ushort)address);
        _reads[(table, address)] = read;
        return this;
    }

    /// <summary>Takes what is written to an address: 0 or 1 for a coil, 0 to 65535 for a register.</summary>
    /// <exception cref="ArgumentException">The table is read only.</exception>
    public RegisterMap OnWrite(RegisterTable table, int address, Action<int> write)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(address, (ushort)address);
        if (table is RegisterTable.DiscreteInput or RegisterTable.InputRegister)
        {
            throw new ArgumentException($"{table} is read only; write to coils and holding registers", nameof(table));
        }

        _writes[(table, address)] = write;
        return this;
    }

    /// <summary>What the device says it is; null when it does not know function 2Bh.</summary>
    public DeviceIdentity? Identity { get; init; }

    /// <summary>Answers one request.</summary>
    /// <param name="request">The request's PDU.</param>
    /// <param name="answer">Room for <see cref="ModbusLimits.MostPduBytes"/>.</param>
    /// <returns>Length of the answer's PDU.</returns>
    public int Answer(ReadOnlySpan<byte> request, Span<byte> answer)
    {
        if (Identity is null && !request.IsEmpty && request[0] == (byte)FunctionCode.EncapsulatedInterface)
        {
            return Refuse(request, ExceptionCode.IllegalFunction, answer);
        }

        ExceptionCode refused = ModbusRequest.Decode(request, out ModbusRequest r);
        if (refused == ExceptionCode.None && r.Function == FunctionCode.EncapsulatedInterface)
        {
            refused = IdentityAnswer.Write(Identity!, r, answer, out int length);
            return refused == ExceptionCode.None ? length : Refuse(request, refused, answer);
        }

        if (refused == ExceptionCode.None && !HasAddresses(r))
        {
            refused = ExceptionCode.IllegalDataAddress;
        }

        if (refused == ExceptionCode.None)
        {
            try
            {
                return Perform(r, request, answer);
            }
            catch (InvalidOperationException e)
            {
                refused = (e as DeviceRefusalException)?.Code ?? ExceptionCode.ServerDeviceFailure;
            }
        }

        return Refuse(request, refused, answer);
    }

    private static int Refuse(ReadOnlySpan<byte> request, ExceptionCode code, Span<byte> answer)
    {
        answer[0] = (byte)((request.IsEmpty ? 0 : request[0]) | 0x80);
        answer[1] = (byte)code;
        return 2;
    }

    private bool HasAddresses(in ModbusRequest r) => r.Function switch
    {
        FunctionCode.ReadCoils => HasAll(_reads, RegisterTable.Coil, r.Address, r.Quantity),
        FunctionCode.ReadDiscreteInputs => HasAll(_reads, RegisterTable.DiscreteInput, r.Address, r.Quantity),
        FunctionCode.ReadHoldingRegisters => HasAll(_reads, RegisterTable.HoldingRegister, r.Address, r.Quantity),
        FunctionCode.ReadInputRegisters => HasAll(_reads, RegisterTable.InputRegister, r.Address, r.Quantity),
        FunctionCode.WriteCoil or FunctionCode.WriteCoils => HasAll(_writes, RegisterTable.Coil, r.Address, r.Quantity),
        FunctionCode.MaskWriteRegister =>
            HasAll(_reads, RegisterTable.HoldingRegister, r.Address, 1) && HasAll(_writes, RegisterTable.HoldingRegister, r.Address, 1),
        FunctionCode.ReadWriteRegisters =>
            HasAll(_reads, RegisterTable.HoldingRegister, r.Address, r.Quantity)
            && HasAll(_writes, RegisterTable.HoldingRegister, r.WriteAddress, r.WriteQuantity),
        FunctionCode.Diagnostics => true,
        _ => HasAll(_writes, RegisterTable.HoldingRegister, r.Address, r.Quantity),
    };

    private static bool HasAll<T>(Dictionary<(RegisterTable, int), T> handlers, RegisterTable table, int first, int quantity)
    {
        for (int i = 0; i < quantity; i++)
        {
            if (!handlers.ContainsKey((table, first + i)))
            {
                return false;
            }
        }

        return true;
    }

    private int Perform(in ModbusRequest r, ReadOnlySpan<byte> request, Span<byte> answer)
    {
        answer[0] = (byte)r.Function;
        switch (r.Function)
        {
            case FunctionCode.ReadCoils:
                return ReadBits(RegisterTable.Coil, r, answer);
            case FunctionCode.ReadDiscreteInputs:
                return ReadBits(RegisterTable.DiscreteInput, r, answer);
            case FunctionCode.ReadHoldingRegisters:
                return ReadRegisters(RegisterTable.HoldingRegister, r, answer);
            case FunctionCode.ReadInputRegisters:
                return ReadRegisters(RegisterTable.InputRegister, r, answer);
            case FunctionCode.ReadWriteRegisters:
                // The write comes before the read (6.17).
                WriteRegisters(r.WriteAddress, r.WriteQuantity, r.Data);
                return ReadRegisters(RegisterTable.HoldingRegister, r, answer);
            case FunctionCode.WriteCoil:
                _writes[(RegisterTable.Coil, r.Address)](r.Data[0] == 0 ? 0 : 1);
                break;
            case FunctionCode.WriteCoils:
                for (int i = 0; i < r.Quantity; i++)
                {
                    _writes[(RegisterTable.Coil, r.Address + i)](PackedBits.Get(r.Data, i) ? 1 : 0);
                }

                break;
            case FunctionCode.MaskWriteRegister:
                int and = BinaryPrimitives.ReadUInt16BigEndian(r.Data);
                int or = BinaryPrimitives.ReadUInt16BigEndian(r.Data[2..]);
                int now = _reads[(RegisterTable.HoldingRegister, r.Address)]();
                _writes[(RegisterTable.HoldingRegister, r.Address)](((now & and) | (or & ~and)) & 0xFFFF);
                break;
            case FunctionCode.Diagnostics:
                break;
            default:
                WriteRegisters(r.Address, r.Quantity, r.Data);
                break;
        }

        // Every write, and return query data, is answered with the beginning of its own request.
        request[..r.AnswerLength].CopyTo(answer);
        return r.AnswerLength;
    }

    private int ReadBits(RegisterTable table, in ModbusRequest r, Span<byte> answer)
    {
        int bytes = PackedBits.Bytes(r.Quantity);
        answer[1] = (byte)bytes;
        answer.Slice(2, bytes).Clear();
        for (int i = 0; i < r.Quantity; i++)
        {
            if (_reads[(table, r.Address + i)]() != 0)
            {
                answer[2 + (i / 8)] |= (byte)(1 << (i % 8));
            }
        }

        return 2 + bytes;
    }

    private int ReadRegisters(RegisterTable table, in ModbusRequest r, Span<byte> answer)
    {
        answer[1] = (byte)(2 * r.Quantity);
        for (int i = 0; i < r.Quantity; i++)
        {
            int value = _reads[(table, r.Address + i)]();
            BinaryPrimitives.WriteUInt16BigEndian(answer[(2 + (2 * i))..], (ushort)(value & 0xFFFF));
        }

        return 2 + (2 * r.Quantity);
    }

    private void WriteRegisters(int first, int quantity, ReadOnlySpan<byte> data)
    {
        for (int i = 0; i < quantity; i++)
        {
            _writes[(RegisterTable.HoldingRegister, first + i)](BinaryPrimitives.ReadUInt16BigEndian(data[(2 * i)..]));
        }
    }
}
