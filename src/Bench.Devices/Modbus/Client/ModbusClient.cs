using System.Buffers.Binary;
using System.Runtime.CompilerServices;
using Bench.Devices.Links;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Modbus.Client;

/// <summary>The master's side of Modbus RTU and TCP over one link.</summary>
public sealed class ModbusClient : IModbusClient, IAsyncDisposable
{
    private const byte BasicIdentity = 1;

    private readonly ILink _link;
    private readonly TimeProvider _time;
    private readonly IAnswerFraming _framing;
    private readonly FrameGap _gap;
    private readonly AnswerClock _clock;
    private readonly byte[] _frame = new byte[ModbusLimits.MostTcpBytes];
    private readonly byte[] _answer = new byte[ModbusLimits.MostTcpBytes];
    private readonly byte[] _spare = new byte[ModbusLimits.MostTcpBytes];
    private readonly byte[] _data = new byte[ModbusLimits.MostPduBytes];
    private readonly OwedAnswers? _owed;
    private readonly Turnaround?[] _turnarounds = new Turnaround?[byte.MaxValue + 1];

    /// <summary>Makes a client. The link stays the caller's to close.</summary>
    public ModbusClient(ILink link, LinkProtocol protocol, TimeProvider time)
    {
        _link = link;
        _time = time;
        _framing = protocol == LinkProtocol.ModbusRtu ? new RtuAnswerFraming() : new TcpAnswerFraming();
        _owed = protocol == LinkProtocol.ModbusRtu ? new OwedAnswers() : null;
        _gap = new FrameGap(time, protocol == LinkProtocol.ModbusRtu ? RtuTiming.Gap(link.CharacterTime) : TimeSpan.Zero);
        _clock = new AnswerClock(time);
    }

    /// <inheritdoc/>
    public ValueTask ReadyAsync(CancellationToken cancel) => _gap.KeepAsync(cancel);

    /// <inheritdoc/>
    public TurnaroundStatistics TurnaroundOf(int unit) => _turnarounds[unit & 0xFF]?.Statistics ?? default;

    /// <inheritdoc/>
    public ValueTask<ModbusResult> ReadBitsAsync(
        int unit, RegisterTable table, int address, Memory<bool> values, TimeSpan timeout, CancellationToken cancel)
    {
        FunctionCode function = table switch
        {
            RegisterTable.Coil => FunctionCode.ReadCoils,
            RegisterTable.DiscreteInput => FunctionCode.ReadDiscreteInputs,
            _ => throw new ArgumentException($"{table} holds no bits; read it as registers", nameof(table)),
        };
        ModbusRequest request = new() { Function = function, Address = address, Quantity = values.Length };
        return AskAsync(unit, request, AnswerTarget.Of(values), timeout, cancel);
    }

    /// <inheritdoc/>
    public ValueTask<ModbusResult> ReadRegistersAsync(
        int unit, RegisterTable table, int address, Memory<ushort> values, TimeSpan timeout, CancellationToken cancel)
    {
        FunctionCode function = table switch
        {
            RegisterTable.HoldingRegister => FunctionCode.ReadHoldingRegisters,
            RegisterTable.InputRegister => FunctionCode.ReadInputRegisters,
            _ => throw new ArgumentException($"{table} holds no registers; read it as bits", nameof(table)),
        };
        ModbusRequest request = new() { Function = function, Address = address, Quantity = values.Length };
        return AskAsync(unit, request, AnswerTarget.Of(values), timeout, cancel);
    }

    /// <inheritdoc/>
    public ValueTask<ModbusResult> WriteCoilAsync(int unit, int address, bool value, TimeSpan timeout, CancellationToken cancel)
    {
        ReadOnlySpan<byte> data = value ? [0xFF, 0x00] : [0x00, 0x00];
        return AskAsync(
            unit, new ModbusRequest { Function = FunctionCode.WriteCoil, Address = address, Quantity = 1, Data = data }, default, timeout, cancel);
    }

    /// <inheritdoc/>
    public ValueTask<ModbusResult> WriteCoilsAsync(
        int unit, int address, ReadOnlyMemory<bool> values, TimeSpan timeout, CancellationToken cancel)
    {
        if (values.Length > ModbusLimits.MostCoilsWritten)
        {
            throw new ArgumentException($"{values.Length} coils are more than Modbus writes at once ({ModbusLimits.MostCoilsWritten})");
        }

        int bytes = PackedBits.Pack(values.Span, _data);
        ModbusRequest request = new()
        {
            Function = FunctionCode.WriteCoils,
            Address = address,
            Quantity = values.Length,
            Data = _data.AsSpan(0, bytes),
        };
        return AskAsync(unit, request, default, timeout, cancel);
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
        return AskAsync(unit, request, default, timeout, cancel);
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
        return AskAsync(unit, request, default, timeout, cancel);
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
        return AskAsync(unit, request, default, timeout, cancel);
    }

    /// <inheritdoc/>
    public ValueTask<ModbusResult> ReadWriteRegistersAsync(
        int unit,
        int writeAddress,
        ReadOnlyMemory<ushort> written,
        int readAddress,
        Memory<ushort> read,
        TimeSpan timeout,
        CancellationToken cancel)
    {
        ModbusRequest request = new()
        {
            Function = FunctionCode.ReadWriteRegisters,
            Address = readAddress,
            Quantity = read.Length,
            WriteAddress = writeAddress,
            WriteQuantity = written.Length,
            Data = PutRegisters(written.Span),
        };
        return AskAsync(unit, request, AnswerTarget.Of(read), timeout, cancel);
    }

    /// <inheritdoc/>
    public ValueTask<ModbusResult> ReturnQueryDataAsync(int unit, ushort data, TimeSpan timeout, CancellationToken cancel)
    {
        ModbusRequest request = new()
        {
            Function = FunctionCode.Diagnostics,
            Address = ModbusRequest.ReturnQueryData,
            Quantity = 1,
            Data = PutRegisters([data]),
        };
        return AskAsync(unit, request, default, timeout, cancel);
    }

    /// <inheritdoc/>
    public async ValueTask<(ModbusResult Result, DeviceIdentity? Identity)> ReadIdentityAsync(
        int unit, TimeSpan timeout, CancellationToken cancel)
    {
        IdentityReading reading = new();
        ModbusResult result = ModbusResult.Failed(DeviceFaultKind.Garbled);
        while (reading.Next is byte next)
        {
            result = await AskIdentityAsync(unit, next, reading, timeout, cancel);
            if (!result.Ok)
            {
                return (result, null);
            }
        }

        return (result, reading.Identity);
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        _gap.Dispose();
        await _clock.DisposeAsync();
    }

    private ValueTask<ModbusResult> AskIdentityAsync(
        int unit, byte first, IdentityReading reading, TimeSpan timeout, CancellationToken cancel)
    {
        ReadOnlySpan<byte> data = [BasicIdentity, first];
        ModbusRequest request = new() { Function = FunctionCode.EncapsulatedInterface, Quantity = 1, Data = data };
        return AskAsync(unit, request, AnswerTarget.Of(reading), timeout, cancel);
    }

    private ValueTask<ModbusResult> AskAsync(
        int unit, in ModbusRequest request, AnswerTarget target, TimeSpan timeout, CancellationToken cancel)
    {
        // A request this client would itself refuse is the caller's mistake, not the wire's.
        Span<byte> pdu = _frame.AsSpan(_framing.PduAt);
        int length = request.CanBeEncoded ? request.Encode(pdu) : 0;
        if (ModbusRequest.Decode(pdu[..length], out _) != ExceptionCode.None)
        {
            throw new ArgumentException($"{request.Function} of {request.Quantity} at {request.Address} is outside what Modbus allows");
        }

        if (unit is < 0 or > byte.MaxValue || (_framing is RtuAnswerFraming && unit > ModbusLimits.GreatestAddress))
        {
            throw new ArgumentOutOfRangeException(nameof(unit), unit, "a device has an address from 1 to 247, or on TCP also 255");
        }

        return ExchangeAsync(unit, length, request.AnswerLength, target, timeout, cancel);
    }

    // Pooled: a poll loop makes hundreds of exchanges a second, and none may leave garbage behind.
    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    private async ValueTask<ModbusResult> ExchangeAsync(
        int unit, int pduLength, int answerLength, AnswerTarget target, TimeSpan timeout, CancellationToken cancel)
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

            int most = answerLength == ModbusRequest.ToldByAnswer ? ModbusLimits.MostPduBytes : answerLength;
            TimeSpan longest = requestTime + timeout + (_link.CharacterTime * (most + _framing.Overhead));
            CancellationToken overdue = _clock.Overdue;
            using CancellationTokenRegistration given = cancel.UnsafeRegister(static c => ((AnswerClock)c!).GiveUp(), _clock);
            while (true)
            {
                ValueTask<int> reading = _link.ReadAsync(_framing.Room, overdue);
                if (!reading.IsCompleted)
                {
                    _clock.Start(sent, longest);
                }

                int read = await reading;
                long received = _time.GetTimestamp();
                if (read == 0)
                {
                    _framing.Forget();
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
                    if (_owed?.Has(unit, _frame[_framing.PduAt], answerLength, received) == true
                        && await AnotherComesAsync(unit, pduLength, answerLength, received))
                    {
                        return ModbusResult.Failed(DeviceFaultKind.Garbled); // one of the two is late, and nothing says which
                    }

                    return Result(
                        unit, _answer.AsSpan(0, found), target, sent, received, requestTime, _link.CharacterTime * (found + _framing.Overhead));
                }

                if (_time.GetElapsedTime(sent, received) > longest)
                {
                    return ModbusResult.Failed(DeviceFaultKind.Garbled); // endless noise, which keeps every read from waiting
                }
            }
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            _owed?.Add(unit, _frame[_framing.PduAt], answerLength, _time.GetTimestamp() + (long)(OwedAnswers.Late.TotalSeconds * _time.TimestampFrequency));
            return ModbusResult.Failed(heard ? DeviceFaultKind.Garbled : DeviceFaultKind.Silent);
        }
        catch (IOException)
        {
            _framing.Forget();
            return ModbusResult.Failed(DeviceFaultKind.LinkLost);
        }
        finally
        {
            _clock.Stop();
            _gap.Busy(sent, requestTime);
        }
    }

    // Listens for as long as the device usually takes, since an answer came that may be one of before: then its own follows.
    private async ValueTask<bool> AnotherComesAsync(int unit, int pduLength, int answerLength, long received)
    {
        TimeSpan usual = _turnarounds[unit]?.Usual ?? TimeSpan.MaxValue;
        TimeSpan longest = (usual < OwedAnswers.Late ? usual : OwedAnswers.Late) + _gap.Gap + (_link.CharacterTime * (answerLength + _framing.Overhead));
        try
        {
            while (true)
            {
                if (_framing.TryTake(unit, _frame.AsSpan(_framing.PduAt, pduLength), answerLength, _spare) > 0)
                {
                    _owed!.Clear(unit);
                    return true;
                }

                CancellationToken overdue = _clock.Overdue;
                _clock.Start(received, longest);
                int read = await _link.ReadAsync(_framing.Room, overdue);
                _framing.Added(read);
                if (read == 0 || _time.GetElapsedTime(received) > longest)
                {
                    return false;
                }

                _gap.Busy(_time.GetTimestamp());
            }
        }
        catch (OperationCanceledException)
        {
            return false;
        }
    }

    private ModbusResult Result(
        int unit, ReadOnlySpan<byte> answer, AnswerTarget target, long sent, long received, TimeSpan requestTime, TimeSpan answerTime)
    {
        TimeSpan roundTrip = _time.GetElapsedTime(sent, received);
        TimeSpan turnaround = roundTrip - requestTime - answerTime;
        TimeSpan afterSent;
        TimeSpan half;
        if (turnaround >= TimeSpan.Zero)
        {
            // The device acted after the request's last bit, and the silence by which it knew that (RTU), and before its
            // answer's first. What an answer takes beyond the device's usual turnaround is put down to its delivery (a
            // busy host, an adapter's latency timer), which comes after the device has acted.
            Turnaround known = _turnarounds[unit] ??= new Turnaround();
            TimeSpan usual = turnaround < known.Usual ? turnaround : known.Usual;
            known.Add(turnaround);
            TimeSpan silence = usual >= _gap.Gap ? _gap.Gap : TimeSpan.Zero;
            half = (usual - silence) / 2;
            afterSent = requestTime + silence + half;
        }
        else
        {
            // A channel quicker than its wire would be (a pty): all that is known is, between sending and receiving.
            half = roundTrip / 2;
            afterSent = half;
        }

        bool refused = Answer.IsException(answer);
        if (!refused)
        {
            target.Take(answer);
        }

        return new ModbusResult(
            refused ? DeviceFaultKind.Refused : null,
            refused ? (ExceptionCode)answer[1] : ExceptionCode.None,
            sent + (long)(afterSent.TotalSeconds * _time.TimestampFrequency),
            half.TotalSeconds,
            roundTrip);
    }

    private Span<byte> PutRegisters(ReadOnlySpan<ushort> values)
    {
        if (values.Length > ModbusLimits.MostRegistersWritten)
        {
            throw new ArgumentException($"{values.Length} registers are more than Modbus writes at once ({ModbusLimits.MostRegistersWritten})");
        }

        for (int i = 0; i < values.Length; i++)
        {
            BinaryPrimitives.WriteUInt16BigEndian(_data.AsSpan(2 * i), values[i]);
        }

        return _data.AsSpan(0, 2 * values.Length);
    }
}
