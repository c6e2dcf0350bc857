namespace Bench.Simulation.Units;

/// <summary>The controller of a unit that turns itself to a target.</summary>
public sealed record ControllerDesign
{
    /// <summary>Whether it drives its motor at all.</summary>
    public bool Obeys { get; init; } = true;

    /// <summary>Counts by which it goes beside its target.</summary>
    public double BesideCounts { get; init; }
}
