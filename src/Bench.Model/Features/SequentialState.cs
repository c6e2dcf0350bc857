namespace Bench.Model.Features;

/// <summary>Where a sequential test stands.</summary>
public enum SequentialState
{
    /// <summary>More moves are needed.</summary>
    Continue,

    /// <summary>The share of failing moves is shown to be small enough.</summary>
    Shown,

    /// <summary>The share of failing moves is shown to be too great.</summary>
    Refuted,

    /// <summary>Truncated without a decision.</summary>
    Truncated,
}
