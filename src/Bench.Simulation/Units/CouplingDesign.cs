namespace Bench.Simulation.Units;

/// <summary>The coupling between encoder shaft and valve shaft: toothed, so it plays, and when it gives way it rides over a tooth.</summary>
public sealed record CouplingDesign
{
    /// <summary>Play, counts.</summary>
    public required double PlayCounts { get; init; }

    /// <summary>Least torque that a new seating of the teeth holds, N·m. Torque above it strains them; they seat anew when it is over.</summary>
    public required double HoldsAtLeastNm { get; init; }

    /// <summary>Greatest torque that a new seating of the teeth holds, N·m; each seating draws its own, uniform between the two.</summary>
    public required double HoldsAtMostNm { get; init; }

    /// <summary>Counts from one seating to the next.</summary>
    public required double ToothCounts { get; init; }

    /// <summary>Torque carried while riding over, as a share of what held, 0 to 1.</summary>
    public double SlidingShare { get; init; } = 0.6;
}
