namespace Bench.Simulation.Units;

/// <summary>The electronics that read the ring and speak on the bus.</summary>
public sealed record FeedbackDesign
{
    /// <summary>Whether the bus interface works.</summary>
    public bool Answers { get; init; } = true;

    /// <summary>Whether the ring is scanned; when not, the last count stays.</summary>
    public bool Scans { get; init; } = true;

    /// <summary>Supply above which its regulator cuts out now and then, volts; null for one that holds.</summary>
    public double? CutsOutAboveV { get; init; }

    /// <summary>How it cuts out there; the time between is time above that supply.</summary>
    public OpeningDesign CutsOut { get; init; } = new(5.0, 0.150, 0.400);

    /// <summary>How old a count is when it is reported, seconds.</summary>
    public double LatchS { get; init; }

    /// <summary>Numbers of the ports, from 0 in order of count, whose switch never closes.</summary>
    public IReadOnlyList<int> OpenSwitches { get; init; } = [];

    /// <summary>Numbers of the ports whose switch never opens.</summary>
    public IReadOnlyList<int> ClosedSwitches { get; init; } = [];
}
