using Bench.Devices.Links;
using Bench.Model.Instruments;

namespace Bench.Devices.Positions;

/// <summary>A feedback that is not asked any more once a link of its position was lost: nobody waits for a port while a motor may be on.</summary>
internal sealed class WatchedFeedback(IFeedback feedback, LinkWatch watch) : IFeedback
{
    public ValueTask<FeedbackReading> ReadAsync(CancellationToken cancel) => watch.Fault is null
        ? feedback.ReadAsync(cancel)
        : new(new FeedbackReading(FeedbackStatus.LinkLost, 0, 0, 0));

    public IPushedReadings<FeedbackReading>? Pushed => feedback.Pushed;

    public IRelativeFeedback? Relative => feedback.Relative;
}
