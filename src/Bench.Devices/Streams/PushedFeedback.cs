using Bench.Devices.Feedbacks;
using Bench.Model.Instruments;

namespace Bench.Devices.Streams;

/// <summary>A feedback that pushes its counts.</summary>
/// <param name="polled">Reads the newest.</param>
/// <param name="source">Where its counts come from.</param>
/// <param name="place">Turns a count into a place on the ring, as <paramref name="polled"/> does.</param>
internal sealed class PushedFeedback(IFeedback polled, StreamCount source, Func<CountReading, FeedbackReading> place)
    : IFeedback, IPushedReadings<FeedbackReading>
{
    /// <inheritdoc/>
    public ValueTask<FeedbackReading> ReadAsync(CancellationToken cancel) => polled.ReadAsync(cancel);

    /// <inheritdoc/>
    public bool TryTake(out FeedbackReading reading)
    {
        bool taken = source.TryTake(out CountReading count);
        reading = taken ? place(count) : default;
        return taken;
    }
}
