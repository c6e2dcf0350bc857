namespace Bench.Simulation.Units;

/// <summary>The unit's connector.</summary>
public sealed record ConnectorDesign
{
    /// <summary>Resistance of the supply contacts together, ohms.</summary>
    public required double ContactOhm { get; init; }

    /// <summary>Openings under vibration; null for a sound connector.</summary>
    public OpeningDesign? Openings { get; init; }

    /// <summary>Openings while a person moves it, turning or not; null for one that keeps contact.</summary>
    public OpeningDesign? WhenMoved { get; init; }

    /// <summary>Share of the openings that part the supply wires; the others part the feedback's.</summary>
    public double SupplyShare { get; init; }
}
