using Bench.Simulation.Chance;

namespace Bench.Simulation.Conditions;

/// <summary>Dead electronics in the unit: silent on the bus, or answering with a count that never changes.</summary>
/// <param name="variant">Which of the two; null lets the seed choose.</param>
public sealed class DeadFeedback(DeadFeedbackVariant? variant = null) : ICondition
{
    /// <inheritdoc/>
    public string Id => "dead-feedback";

    /// <inheritdoc/>
    public string Title => "the feedback is silent or its count is frozen";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        DeadFeedbackVariant which =
            variant ?? (random.Happens(0.5) ? DeadFeedbackVariant.Frozen : DeadFeedbackVariant.Silent);
        return healthy with
        {
            Unit = healthy.Unit with
            {
                Feedback = which == DeadFeedbackVariant.Frozen
                    ? healthy.Unit.Feedback with { Scans = false }
                    : healthy.Unit.Feedback with { Answers = false },
            },
        };
    }
}
