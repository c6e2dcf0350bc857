using Bench.Devices.Buses;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Rings;

namespace Bench.Devices.Feedbacks;

/// <summary>An absolute count in one register.</summary>
public sealed class RingFeedback : IFeedback
{
    private readonly BusDevice _device;
    private readonly Channel _channel;
    private readonly Ring _ring;
    private readonly Func<bool> _moving;
    private readonly ushort[] _word = new ushort[1];

    /// <summary>Makes a feedback.</summary>
    /// <param name="device">The device.</param>
    /// <param name="channel">The register.</param>
    /// <param name="ring">The unit's ring; a count that is not on it is <see cref="FeedbackStatus.OutOfRange"/>.</param>
    /// <param name="moving">Whether the unit may be turning; then its position goes before other traffic.</param>
    public RingFeedback(BusDevice device, Channel channel, Ring ring, Func<bool> moving)
    {
        _device = device;
        _channel = channel;
        _ring = ring;
        _moving = moving;
    }

    /// <inheritdoc/>
    public async ValueTask<FeedbackReading> ReadAsync(CancellationToken cancel)
    {
        BusClass line = _moving() ? BusClass.Moving : BusClass.Rest;
        ModbusResult result = await _device.ReadRegistersAsync(line, _channel.Table, _channel.Address, _word, retry: false, cancel);
        return result.Fault switch
        {
            null when _word[0] < _ring.Counts => new(FeedbackStatus.Ok, _word[0], result.At, result.AtUncertainty),
            null => new(FeedbackStatus.OutOfRange, 0, result.At, result.AtUncertainty),
            DeviceFaultKind.Silent => new(FeedbackStatus.Silent, 0, 0, 0),
            DeviceFaultKind.Garbled => new(FeedbackStatus.Garbled, 0, 0, 0),
            DeviceFaultKind.Refused => new(FeedbackStatus.Refused, 0, result.At, result.AtUncertainty),
            _ => new(FeedbackStatus.LinkLost, 0, 0, 0),
        };
    }
}
