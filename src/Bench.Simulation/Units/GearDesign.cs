namespace Bench.Simulation.Units;

/// <summary>The gear train between motor and encoder shaft.</summary>
public sealed record GearDesign
{
    /// <summary>Motor revolutions per revolution of the encoder shaft.</summary>
    public required double Ratio { get; init; }

    /// <summary>Share of the motor's torque that arrives, 0 to 1.</summary>
    public required double Efficiency { get; init; }

    /// <summary>Dry friction of the train itself, at the motor, N·m.</summary>
    public required double DryFrictionNm { get; init; }

    /// <summary>Play between motor and encoder shaft, counts.</summary>
    public required double PlayCounts { get; init; }

    /// <summary>Greatest torque the teeth carry, at the encoder shaft, N·m; above it they ride over each other.</summary>
    public required double TransmitsNm { get; init; }
}
