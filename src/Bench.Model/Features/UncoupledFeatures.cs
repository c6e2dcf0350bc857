namespace Bench.Model.Features;

/// <summary>Names of the features of the move with the valve taken off.</summary>
public static class UncoupledFeatures
{
    /// <summary>1 when the motor stood still at stall current without its valve, else 0.</summary>
    public const string Locked = "motion.uncoupled_locked";

    /// <summary>1 when the motor turned without its valve, else 0.</summary>
    public const string Free = "motion.uncoupled_free";

    /// <summary>Current at the end of that move.</summary>
    public const string Current = "current.uncoupled_a";

    /// <summary>All of them. A unit that was not locked has no such move, and nothing is missing for that.</summary>
    public static IReadOnlyList<string> All { get; } = [Locked, Free, Current];
}
