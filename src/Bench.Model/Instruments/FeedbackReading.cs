namespace Bench.Model.Instruments;

/// <summary>One reading of the unit's position, or the reason there is none.</summary>
/// <param name="Status">What became of the attempt.</param>
/// <param name="Count">The count, 0 to N - 1; meaningful only when <see cref="Ok"/>.</param>
/// <param name="At">Best estimate of the instant the unit took the reading, a <see cref="TimeProvider"/> timestamp.</param>
/// <param name="AtUncertainty">Half-width of that instant, in seconds (rectangular).</param>
public readonly record struct FeedbackReading(FeedbackStatus Status, int Count, long At, double AtUncertainty)
{
    /// <summary>Whether <see cref="Count"/> is a reading.</summary>
    public bool Ok => Status == FeedbackStatus.Ok;

    /// <summary>Whether the feedback answered with something it can mean, a count or not: port switches give none between ports.</summary>
    public bool Heard => Status is FeedbackStatus.Ok or FeedbackStatus.BetweenPorts or FeedbackStatus.SwitchesContradict;
}
