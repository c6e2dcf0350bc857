namespace Bench.Simulation.Units;

/// <summary>The valve: friction by angle, seats at its ports, and the index cam on its shaft.</summary>
public sealed record ValveDesign
{
    /// <summary>Friction between ports, N·m.</summary>
    public required double FrictionNm { get; init; }

    /// <summary>Middles of the seats, counts.</summary>
    public required IReadOnlyList<double> SeatCounts { get; init; }

    /// <summary>Extra torque at a seat's middle, N·m.</summary>
    public required double SeatExtraNm { get; init; }

    /// <summary>Distance from a seat's middle at which its extra torque has gone, counts.</summary>
    public required double SeatReachCounts { get; init; }

    /// <summary>Unevenness of friction round the turn, standard deviation as a share of it.</summary>
    public required double RoughnessShare { get; init; }

    /// <summary>Which unevenness: the same number is the same valve.</summary>
    public ulong RoughnessSeed { get; init; }

    /// <summary>Friction's waves round the turn.</summary>
    public IReadOnlyList<FrictionWave> Waves { get; init; } = [];

    /// <summary>A tight spot; null for none.</summary>
    public TightSpot? TightSpot { get; init; }

    /// <summary>Middle of the arc on which the index is closed, counts.</summary>
    public required double IndexCount { get; init; }

    /// <summary>Width of that arc, counts; 0 when the family has no index.</summary>
    public required double IndexWidthCounts { get; init; }
}
