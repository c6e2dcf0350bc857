namespace Bench.Model.Features;

/// <summary>The sequential test on moves (C11).</summary>
public sealed record DemonstrationResult
{
    /// <summary>Moves counted.</summary>
    public required int Moves { get; init; }

    /// <summary>Of them failed.</summary>
    public required int Failed { get; init; }

    /// <summary>Log likelihood ratio after each counted move.</summary>
    public required IReadOnlyList<double> Path { get; init; }

    /// <summary>Lower boundary ln(β/(1-α)): at or below it the demonstration is reached.</summary>
    public required double AcceptAt { get; init; }

    /// <summary>Upper boundary ln((1-β)/α): at or above it the unit fails.</summary>
    public required double RejectAt { get; init; }

    /// <summary>What the test does to good, poor and doubtful units, in order of their share of failing moves; empty in records of before it was kept.</summary>
    public IReadOnlyList<PlanPoint> Plan { get; init; } = [];

    /// <summary>Where the test stands.</summary>
    public required SequentialState State { get; init; }

    /// <summary>One-sided 95 % upper limit of the share of failing moves (Clopper-Pearson); null with no moves.</summary>
    public double? UpperLimit95 { get; init; }

    /// <summary>Expected moves of a unit at p0 (Wald's approximation).</summary>
    public required double ExpectedMovesAtP0 { get; init; }
}
