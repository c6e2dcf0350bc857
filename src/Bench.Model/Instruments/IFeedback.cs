namespace Bench.Model.Instruments;

/// <summary>The unit's own report of where it stands.</summary>
public interface IFeedback
{
    /// <summary>Reads the position once. Never throws for what the wire or the unit did; the reading says it.</summary>
    ValueTask<FeedbackReading> ReadAsync(CancellationToken cancel);

    /// <summary>All readings, where the feedback pushes them; null where it is polled.</summary>
    IPushedReadings<FeedbackReading>? Pushed => this as IPushedReadings<FeedbackReading>;

    /// <summary>The feedback as one whose counts begin anywhere; null where they are places on the ring.</summary>
    IRelativeFeedback? Relative => this as IRelativeFeedback;
}
