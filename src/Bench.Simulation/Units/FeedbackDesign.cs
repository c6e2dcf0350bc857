namespace Bench.Simulation.Units;

/// <summary>The electronics that read the ring and speak on the bus.</summary>
public sealed record FeedbackDesign
{
    /// <summary>Whether the bus interface works.</summary>
    public bool Answers { get; init; } = true;

    /// <summary>Whether the ring is scanned; when not, the last count stays.</summary>
    public bool Scans { get; init; } = true;
}
