namespace Bench.Simulation.Conditions;

/// <summary>How a feedback can be dead.</summary>
public enum DeadFeedbackVariant
{
    /// <summary>It answers, but its ring is not scanned any more: the count stays.</summary>
    Frozen,

    /// <summary>It does not answer.</summary>
    Silent,
}
