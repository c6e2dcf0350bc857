namespace Bench.Analysis.Feedback;

/// <summary>What reseating the feedback's connector showed.</summary>
/// <param name="Doubt">Why a silent feedback says nothing of the unit; null when it may be held against it.</param>
/// <param name="FromS">Time from which the feedback counts, because it answered after its plug was set home, seconds; null when it was not so.</param>
public sealed record FeedbackTrial(string? Doubt, double? FromS)
{
    /// <summary>No connector was reseated.</summary>
    public static FeedbackTrial None { get; } = new(null, null);
}
