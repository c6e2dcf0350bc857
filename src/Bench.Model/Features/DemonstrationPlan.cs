namespace Bench.Model.Features;

/// <summary>
/// What a run's sequential test promises before the first move (C11): where its boundaries are, how short and how long it
/// can be, and what it does to good and bad units. It holds for all counted moves of the run, whatever their stage.
/// </summary>
public sealed record DemonstrationPlan
{
    /// <summary>Boundary of acceptance: log likelihood ratio at or below which the demonstration is reached, below 0.</summary>
    public required double AcceptAt { get; init; }

    /// <summary>Boundary of rejection: log likelihood ratio at or above which it is refuted, above 0.</summary>
    public required double RejectAt { get; init; }

    /// <summary>Moves without a failure that reach the demonstration. Above <see cref="MostMoves"/> it can't be reached.</summary>
    public required int FewestToShow { get; init; }

    /// <summary>Failures in a row, from the first move on, that refute it.</summary>
    public required int FewestToRefute { get; init; }

    /// <summary>Truncation: after so many moves without a decision there is none.</summary>
    public required int MostMoves { get; init; }

    /// <summary>What it does to units, by share of failing moves, ascending from p0 to p1.</summary>
    public required IReadOnlyList<PlanPoint> Points { get; init; }
}
