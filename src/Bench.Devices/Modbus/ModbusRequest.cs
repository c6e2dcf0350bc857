using System.Buffers.Binary;

namespace Bench.Devices.Modbus;

/// <summary>
/// One request, taken apart: what is read, what is written, and the data as on the wire
/// (Application Protocol V1.1b3, section 6). <see cref="Encode"/> and <see cref="Decode"/> undo each other.
/// </summary>
public readonly ref struct ModbusRequest
{
    private const ushort CoilOn = 0xFF00;
    private const ushort CoilOff = 0x0000;
    private const int IdentificationLength = 4;
    private const int AddressSpace = 0x10000;

    /// <summary>What <see cref="AnswerLength"/> says when only the answer itself tells (device identification).</summary>
    public const int ToldByAnswer = 0;

    /// <summary>The one sub-function of <see cref="FunctionCode.Diagnostics"/> spoken here: return query data (6.8.1).</summary>
    public const int ReturnQueryData = 0;

    /// <summary>The one type of <see cref="FunctionCode.EncapsulatedInterface"/> spoken here: device identification (6.21).</summary>
    public const byte DeviceIdentification = 0x0E;

    /// <summary>The function.</summary>
    public FunctionCode Function { get; init; }

    /// <summary>First address; for function 17h the first one read; for function 08 its sub-function.</summary>
    public int Address { get; init; }

    /// <summary>How many; for function 17h how many are read; 1 for single writes.</summary>
    public int Quantity { get; init; }

    /// <summary>First address written by function 17h.</summary>
    public int WriteAddress { get; init; }

    /// <summary>How many function 17h writes.</summary>
    public int WriteQuantity { get; init; }

    /// <summary>
    /// Data as on the wire, without byte counts: packed coils, big-endian registers, FF00h or 0000h for one coil,
    /// and-mask and or-mask for function 16h, any words for function 08, access code and first object for function 2Bh.
    /// </summary>
    public ReadOnlySpan<byte> Data { get; init; }

    /// <summary>Length of the normal answer's PDU, bytes, or <see cref="ToldByAnswer"/>.</summary>
    public int AnswerLength => Function switch
    {
        FunctionCode.ReadCoils or FunctionCode.ReadDiscreteInputs => 2 + PackedBits.Bytes(Quantity),
        FunctionCode.ReadHoldingRegisters or FunctionCode.ReadInputRegisters or FunctionCode.ReadWriteRegisters => 2 + (2 * Quantity),
        FunctionCode.MaskWriteRegister => 7,
        FunctionCode.Diagnostics => 3 + Data.Length,
        FunctionCode.EncapsulatedInterface => ToldByAnswer,
        _ => 5,
    };

    /// <summary>Whether every address is from 0 to 65535 and the data fits a PDU, so that it can be written at all.</summary>
    public bool CanBeEncoded =>
        Address >= 0 && Quantity >= 0 && Address + (long)Quantity <= AddressSpace
        && WriteAddress >= 0 && WriteQuantity >= 0 && WriteAddress + (long)WriteQuantity <= AddressSpace
        && Data.Length <= ModbusLimits.MostPduBytes - 6;

    /// <summary>Writes the request's PDU.</summary>
    /// <returns>Its length.</returns>
    public int Encode(Span<byte> pdu)
    {
        pdu[0] = (byte)Function;
        if (Function == FunctionCode.EncapsulatedInterface)
        {
            pdu[1] = DeviceIdentification;
            Data.CopyTo(pdu[2..]);
            return 2 + Data.Length;
        }

        Put(pdu, 1, Address);
        int at = 3;
        switch (Function)
        {
            case FunctionCode.WriteCoil or FunctionCode.WriteRegister or FunctionCode.MaskWriteRegister or FunctionCode.Diagnostics:
                break;
            case FunctionCode.WriteCoils or FunctionCode.WriteRegisters:
                Put(pdu, 3, Quantity);
                pdu[5] = (byte)Data.Length;
                at = 6;
                break;
            case FunctionCode.ReadWriteRegisters:
                Put(pdu, 3, Quantity);
                Put(pdu, 5, WriteAddress);
                Put(pdu, 7, WriteQuantity);
                pdu[9] = (byte)Data.Length;
                at = 10;
                break;
            default:
                Put(pdu, 3, Quantity);
                return 5;
        }

        Data.CopyTo(pdu[at..]);
        return at + Data.Length;
    }

    /// <summary>Takes a request's PDU apart and checks function, then length, quantity and value.</summary>
    /// <returns><see cref="ExceptionCode.None"/>, or the exception to answer with (01, then 03: figure 11 of section 6.1 and its like).</returns>
    public static ExceptionCode Decode(ReadOnlySpan<byte> pdu, out ModbusRequest request)
    {
        request = default;
        if (pdu.IsEmpty || !Enum.IsDefined((FunctionCode)pdu[0]) || pdu[0] == 0)
        {
            return ExceptionCode.IllegalFunction;
        }

        if (pdu[0] == (byte)FunctionCode.EncapsulatedInterface)
        {
            return DecodeEncapsulated(pdu, out request);
        }

        if (pdu.Length < 5)
        {
            return ExceptionCode.IllegalDataValue;
        }

        FunctionCode function = (FunctionCode)pdu[0];
        int quantity = Get(pdu, 3);
        request = function switch
        {
            FunctionCode.WriteCoil or FunctionCode.WriteRegister or FunctionCode.MaskWriteRegister or FunctionCode.Diagnostics =>
                new() { Function = function, Address = Get(pdu, 1), Quantity = 1, Data = pdu[3..] },
            FunctionCode.WriteCoils or FunctionCode.WriteRegisters when pdu.Length > 6 =>
                new() { Function = function, Address = Get(pdu, 1), Quantity = quantity, Data = pdu[6..] },
            FunctionCode.ReadWriteRegisters when pdu.Length > 10 => new()
            {
                Function = function,
                Address = Get(pdu, 1),
                Quantity = quantity,
                WriteAddress = Get(pdu, 5),
                WriteQuantity = Get(pdu, 7),
                Data = pdu[10..],
            },
            _ => new() { Function = function, Address = Get(pdu, 1), Quantity = quantity },
        };

        // A sub-function that is not there is answered as a function that is not there (figure 18).
        return function == FunctionCode.Diagnostics && request.Address != ReturnQueryData ? ExceptionCode.IllegalFunction
            : request.IsSound(pdu) ? ExceptionCode.None
            : ExceptionCode.IllegalDataValue;
    }

    private static ExceptionCode DecodeEncapsulated(ReadOnlySpan<byte> pdu, out ModbusRequest request)
    {
        request = default;
        if (pdu.Length < 2 || pdu[1] != DeviceIdentification)
        {
            return ExceptionCode.IllegalFunction;
        }

        if (pdu.Length != IdentificationLength || pdu[2] is < 1 or > 4)
        {
            return ExceptionCode.IllegalDataValue;
        }

        request = new() { Function = FunctionCode.EncapsulatedInterface, Quantity = 1, Data = pdu[2..] };
        return ExceptionCode.None;
    }

    private bool IsSound(ReadOnlySpan<byte> pdu) => Function switch
    {
        FunctionCode.ReadCoils or FunctionCode.ReadDiscreteInputs =>
            pdu.Length == 5 && Quantity is >= 1 and <= ModbusLimits.MostBitsRead,
        FunctionCode.ReadHoldingRegisters or FunctionCode.ReadInputRegisters =>
            pdu.Length == 5 && Quantity is >= 1 and <= ModbusLimits.MostRegistersRead,
        FunctionCode.WriteCoil => pdu.Length == 5 && Get(pdu, 3) is CoilOn or CoilOff,
        FunctionCode.WriteRegister => pdu.Length == 5,
        FunctionCode.WriteCoils =>
            Quantity is >= 1 and <= ModbusLimits.MostCoilsWritten
            && pdu.Length > 6 && pdu[5] == PackedBits.Bytes(Quantity) && Data.Length == pdu[5],
        FunctionCode.WriteRegisters =>
            Quantity is >= 1 and <= ModbusLimits.MostRegistersWritten
            && pdu.Length > 6 && pdu[5] == 2 * Quantity && Data.Length == pdu[5],
        FunctionCode.MaskWriteRegister => pdu.Length == 7,
        FunctionCode.Diagnostics => pdu.Length % 2 == 1,
        _ =>
            Quantity is >= 1 and <= ModbusLimits.MostRegistersRead
            && WriteQuantity is >= 1 and <= ModbusLimits.MostRegistersWrittenWithRead
            && pdu.Length > 10 && pdu[9] == 2 * WriteQuantity && Data.Length == pdu[9],
    };

    private static int Get(ReadOnlySpan<byte> pdu, int at) => BinaryPrimitives.ReadUInt16BigEndian(pdu[at..]);

    private static void Put(Span<byte> pdu, int at, int value) =>
        BinaryPrimitives.WriteUInt16BigEndian(pdu[at..], (ushort)value);
}
