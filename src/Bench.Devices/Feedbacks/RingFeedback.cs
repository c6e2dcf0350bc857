using System.Runtime.CompilerServices;
using Bench.Devices.Buses;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Rings;

namespace Bench.Devices.Feedbacks;

/// <summary>An absolute count on the unit's ring.</summary>
public sealed class RingFeedback : IFeedback
{
    private readonly ICountSource _source;
    private readonly Ring _ring;
    private readonly Func<bool> _moving;

    /// <summary>Makes a feedback whose count is in one register.</summary>
    /// <param name="device">The device.</param>
    /// <param name="channel">The register.</param>
    /// <param name="ring">The unit's ring; a count that is not on it is <see cref="FeedbackStatus.OutOfRange"/>.</param>
    /// <param name="moving">Whether the unit may be turning; then its position goes before other traffic.</param>
    public RingFeedback(BusDevice device, Channel channel, Ring ring, Func<bool> moving)
        : this(new RegisterCount(device, channel), ring, moving)
    {
    }

    internal RingFeedback(ICountSource source, Ring ring, Func<bool> moving)
    {
        _source = source;
        _ring = ring;
        _moving = moving;
    }

    /// <inheritdoc/>
    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    public async ValueTask<FeedbackReading> ReadAsync(CancellationToken cancel) =>
        Place(await _source.ReadAsync(_moving() ? BusClass.Moving : BusClass.Rest, cancel));

    /// <summary>Where on the ring a count is.</summary>
    internal FeedbackReading Place(CountReading reading) =>
        reading.Fault is not null ? reading.Failed
            : reading.Value >= 0 && reading.Value < _ring.Counts ? new(FeedbackStatus.Ok, (int)reading.Value, reading.At, reading.AtUncertainty)
            : new(FeedbackStatus.OutOfRange, 0, reading.At, reading.AtUncertainty);
}
