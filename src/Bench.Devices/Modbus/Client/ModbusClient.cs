using System.Buffers.Binary;
using Bench.Devices.Links;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Modbus.Client;

/// <summary>The master's side of Modbus RTU and TCP over one link.</summary>
public sealed class ModbusClient : IModbusClient, IAsyncDisposable
{
    private readonly ILink _link;
    private readonly TimeProvider _time;
    private readonly IAnswerFraming _framing;
    private readonly FrameGap _gap;
    private readonly AnswerClock _clock;
    private readonly byte[] _frame = new byte[ModbusLimits.MostTcpBytes];
    private readonly byte[] _answer = new byte[ModbusLimits.MostTcpBytes];
    private readonly byte[] _data = new byte[ModbusLimits.MostPduBytes];

    /// <summary>Makes a client. The link stays the caller's to close.</summary>
    public ModbusClient(ILink link, LinkProtocol protocol, TimeProvider time)
    {
        _link = link;
        _time = time;
        _framing = protocol == LinkProtocol.ModbusRtu ? new RtuAnswerFraming() : new TcpAnswerFraming();
        _gap = new FrameGap(time, protocol == LinkProtocol.ModbusRtu ? RtuTiming.Gap(link.CharacterTime) : TimeSpan.Zero);
        _clock = new AnswerClock(time);
    }

    /// <inheritdoc/>
    public ValueTask ReadyAsync(CancellationToken cancel) => _gap.KeepAsync(cancel);

    /// <inheritdoc/>
    public async ValueTask<ModbusResult> ReadBitsAsync(
        int unit, RegisterTable table, int address, Memory<bool> values, TimeSpan timeout, CancellationToken cancel)
    {
        FunctionCode function = table switch
        {
            RegisterTable.Coil => FunctionCode.ReadCoils,
            RegisterTable.DiscreteInput => FunctionCode.ReadDiscreteInputs,
            _ => throw new ArgumentException($"{table} holds no bits; read it as registers", nameof(table)),
        };
        ModbusResult result = await AskAsync(
            unit, new ModbusRequest { Function = function, Address = address, Quantity = values.Length }, timeout, cancel);
        if (result.Ok)
        {
            PackedBits.Unpack(_answer.AsSpan(2), values.Span);
        }

        return result;
    }

    /// <inheritdoc/>
    public async ValueTask<ModbusResult> ReadRegistersAsync(
        int unit, RegisterTable table, int address, Memory<ushort> values, TimeSpan timeout, CancellationToken cancel)
    {
        FunctionCode function = table switch
        {
            RegisterTable.HoldingRegister => FunctionCode.ReadHoldingRegisters,
            RegisterTable.InputRegister => FunctionCode.ReadInputRegisters,
            _ => throw new ArgumentException($"{table} holds no registers; read it as bits", nameof(table)),
        };
        ModbusResult result = await AskAsync(
            unit, new ModbusRequest { Function = function, Address = address, Quantity = values.Length }, timeout, cancel);
        TakeRegisters(result, values.Span);
        return result;
    }

    /// <inheritdoc/>
    public ValueTask<ModbusResult> WriteCoilAsync(int unit, int address, bool value, TimeSpan timeout, CancellationToken cancel)
    {
        ReadOnlySpan<byte> data = value ? [0xFF, 0x00] : [0x00, 0x00];
        return AskAsync(
            unit, new ModbusRequest { Function = FunctionCode.WriteCoil, Address = address, Quantity = 1, Data = data }, timeout, cancel);
    }

    /// <inheritdoc/>
    public ValueTask<ModbusResult> WriteCoilsAsync(
        int unit, int address, ReadOnlyMemory<bool> values, TimeSpan timeout, CancellationToken cancel)
    {
        int bytes = PackedBits.Pack(values.Span, _data);
        ModbusRequest request = new()
        {
            Function = FunctionCode.WriteCoils,
            Address = address,
            Quantity = values.Length,
            Data = _data.AsSpan(0, bytes),
        };
        return AskAsync(unit, request, timeout, cancel);
    }

    /// <inheritdoc/>
    public ValueTask<ModbusResult> WriteRegisterAsync(int unit, int address, ushort value, TimeSpan timeout, CancellationToken cancel)
    {
        ModbusRequest request = new()
        {
            Function = FunctionCode.WriteRegister,
            Address = address,
            Quantity = 1,
            Data = PutRegisters([value]),
        };
        return AskAsync(unit, request, timeout, cancel);
    }

    /// <inheritdoc/>
    public ValueTask<ModbusResult> WriteRegistersAsync(
        int unit, int address, ReadOnlyMemory<ushort> values, TimeSpan timeout, CancellationToken cancel)
    {
        ModbusRequest request = new()
        {
            Function = FunctionCode.WriteRegisters,
            Address = address,
            Quantity = values.Length,
            Data = PutRegisters(values.Span),
        };
        return AskAsync(unit, request, timeout, cancel);
    }

    /// <inheritdoc/>
    public ValueTask<ModbusResult> MaskWriteRegisterAsync(
        int unit, int address, ushort andMask, ushort orMask, TimeSpan timeout, CancellationToken cancel)
    {
        ModbusRequest request = new()
        {
            Function = FunctionCode.MaskWriteRegister,
            Address = address,
            Quantity = 1,
            Data = PutRegisters([andMask, orMask]),
        };
        return AskAsync(unit, request, timeout, cancel);
    }

    /// <inheritdoc/>
    public async ValueTask<ModbusResult> ReadWriteRegistersAsync(
        int unit,
        int writeAddress,
        ReadOnlyMemory<ushort> written,
        int readAddress,
        Memory<ushort> read,
        TimeSpan timeout,
        CancellationToken cancel)
    {
        ModbusResult result = await AskAsync(
            unit,
            new ModbusRequest
            {
                Function = FunctionCode.ReadWriteRegisters,
                Address = readAddress,
                Quantity = read.Length,
                WriteAddress = writeAddress,
                WriteQuantity = written.Length,
                Data = PutRegisters(written.Span),
            },
            timeout,
            cancel);
        TakeRegisters(result, read.Span);
        return result;
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => _clock.DisposeAsync();

    private ValueTask<ModbusResult> AskAsync(int unit, in ModbusRequest request, TimeSpan timeout, CancellationToken cancel)
    {
        // A request this client would itself refuse is the caller's mistake, not the wire's.
        Span<byte> pdu = _frame.AsSpan(_framing.PduAt);
        int length = request.Encode(pdu);
        if (ModbusRequest.Decode(pdu[..length], out _) != ExceptionCode.None)
        {
            throw new ArgumentException($"{request.Function} of {request.Quantity} at {request.Address} is outside what Modbus allows");
        }

        return ExchangeAsync(unit, length, request.AnswerLength, timeout, cancel);
    }

    private async ValueTask<ModbusResult> ExchangeAsync(
        int unit, int pduLength, int answerLength, TimeSpan timeout, CancellationToken cancel)
    {
        await _gap.KeepAsync(cancel);
        int frameLength = _framing.Close(_frame, unit, pduLength);
        TimeSpan requestTime = _link.CharacterTime * frameLength;
        long sent = 0;
        bool heard = false;
        try
        {
            _framing.Begin(_link);
            sent = _time.GetTimestamp();
            await _link.WriteAsync(_frame.AsMemory(0, frameLength), cancel);
            if (unit == ModbusLimits.BroadcastAddress && _framing is RtuAnswerFraming)
            {
                _gap.Busy(sent, requestTime + timeout);
                return new ModbusResult(null, ExceptionCode.None, sent, 0, TimeSpan.Zero);
            }

            TimeSpan answerTime = _link.CharacterTime * (answerLength + _framing.Overhead);
            CancellationToken overdue = _clock.Start(requestTime + timeout + answerTime);
            using CancellationTokenRegistration given = cancel.UnsafeRegister(static c => ((AnswerClock)c!).GiveUp(), _clock);
            while (true)
            {
                int read = await _link.ReadAsync(_framing.Room, overdue);
                long received = _time.GetTimestamp();
                if (read == 0)
                {
                    return ModbusResult.Failed(DeviceFaultKind.LinkLost);
                }

                heard = true;
                _gap.Busy(received);
                _framing.Added(read);
                int found = _framing.TryTake(unit, _frame.AsSpan(_framing.PduAt, pduLength), answerLength, _answer);
                if (found == IAnswerFraming.Damaged)
                {
                    return ModbusResult.Failed(DeviceFaultKind.Garbled);
                }

                if (found != IAnswerFraming.NotYet)
                {
                    return Result(sent, received, requestTime, _link.CharacterTime * (found + _framing.Overhead));
                }
            }
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return ModbusResult.Failed(heard ? DeviceFaultKind.Garbled : DeviceFaultKind.Silent);
        }
        catch (IOException)
        {
            return ModbusResult.Failed(DeviceFaultKind.LinkLost);
        }
        finally
        {
            _clock.Stop();
            _gap.Busy(sent, requestTime);
        }
    }

    private ModbusResult Result(long sent, long received, TimeSpan requestTime, TimeSpan answerTime)
    {
        TimeSpan roundTrip = _time.GetElapsedTime(sent, received);

        // The device acted after the request's last bit, and the silence by which it knew that (RTU), and before its
        // answer's first. Where a channel is quicker than its wire would be (a pty), all that is known is: between
        // sending and receiving.
        TimeSpan turnaround = roundTrip - requestTime - answerTime;
        TimeSpan acting = turnaround >= _gap.Gap ? turnaround - _gap.Gap : turnaround;
        (TimeSpan before, TimeSpan half) = turnaround >= TimeSpan.Zero
            ? (answerTime + (acting / 2), acting / 2)
            : (roundTrip / 2, roundTrip / 2);
        long at = received - (long)(before.TotalSeconds * _time.TimestampFrequency);
        bool refused = Answer.IsException(_answer);
        return new ModbusResult(
            refused ? DeviceFaultKind.Refused : null,
            refused ? (ExceptionCode)_answer[1] : ExceptionCode.None,
            at,
            half.TotalSeconds,
            roundTrip);
    }

    private Span<byte> PutRegisters(ReadOnlySpan<ushort> values)
    {
        for (int i = 0; i < values.Length; i++)
        {
            BinaryPrimitives.WriteUInt16BigEndian(_data.AsSpan(2 * i), values[i]);
        }

        return _data.AsSpan(0, 2 * values.Length);
    }

    private void TakeRegisters(in ModbusResult result, Span<ushort> values)
    {
        for (int i = 0; result.Ok && i < values.Length; i++)
        {
            values[i] = BinaryPrimitives.ReadUInt16BigEndian(_answer.AsSpan(2 + (2 * i)));
        }
    }
}
