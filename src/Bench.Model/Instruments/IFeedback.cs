namespace Bench.Model.Instruments;

/// <summary>The unit's own report of where it stands.</summary>
public interface IFeedback
{
    /// <summary>Reads the position once. Never throws for what the wire or the unit did; the reading says it.</summary>
    ValueTask<FeedbackReading> ReadAsync(CancellationToken cancel);
}
