using System.Runtime.CompilerServices;
using Bench.Devices.Buses;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Rings;

namespace Bench.Devices.Feedbacks;

/// <summary>
/// A counter that goes up and down with the encoder and wraps. It has no zero of its own: the first reading is taken to be
/// the home count, and places on the ring count from there until the home is moved.
/// </summary>
/// <remarks>
/// The counter is followed the short way round: right while it moves by less than half its range between two readings
/// that arrive, whatever was lost between them.
/// </remarks>
public sealed class IncrementalFeedback : IRelativeFeedback
{
    private readonly ICountSource _source;
    private readonly CounterDescription _counter;
    private readonly Ring _ring;
    private readonly Func<bool> _moving;
    private readonly long _range;
    private long? _last;
    private long _travel;
    private int _home;

    internal IncrementalFeedback(ICountSource source, CounterDescription counter, Ring ring, Func<bool> moving)
    {
        _source = source;
        _counter = counter;
        _home = counter.HomeCount;
        _ring = ring;
        _moving = moving;
        _range = 1L << counter.Bits;
    }

    /// <inheritdoc/>
    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    public async ValueTask<FeedbackReading> ReadAsync(CancellationToken cancel) =>
        Place(await _source.ReadAsync(_moving() ? BusClass.Moving : BusClass.Rest, cancel));

    /// <summary>Follows the counter to a reading, and says where on the ring that is.</summary>
    internal FeedbackReading Place(CountReading reading)
    {
        if (reading.Fault is not null)
        {
            return reading.Failed;
        }

        if (reading.Value < 0 || reading.Value >= _range)
        {
            return new(FeedbackStatus.OutOfRange, 0, reading.At, reading.AtUncertainty);
        }

        _travel += Step(reading.Value, _last ?? reading.Value);
        _last = reading.Value;
        long signed = _counter.Reversed ? -_travel : _travel;

        // Rounded to the nearest position of the ring; halves upwards, on either side of home alike.
        double places = Math.Floor(((double)signed * _ring.Counts / _counter.CountsPerRevolution) + 0.5);
        return new(FeedbackStatus.Ok, _ring.Place((long)places + _home), reading.At, reading.AtUncertainty);
    }

    /// <inheritdoc/>
    public void MoveHome(int counts) => _home = _ring.Place((long)_home + counts);

    private long Step(long now, long before)
    {
        long step = (now - before + _range) % _range;
        return 2 * step > _range ? step - _range : step;
    }
}
