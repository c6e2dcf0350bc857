namespace Bench.Simulation.Units;

/// <summary>The ring of sensors on the encoder shaft.</summary>
public sealed record EncoderDesign
{
    /// <summary>Counts whose sensor never answers.</summary>
    public IReadOnlyList<int> DeadCounts { get; init; } = [];

    /// <summary>A contaminated arc; null for none.</summary>
    public ContaminatedArc? Contaminated { get; init; }

    /// <summary>Uneven geometry; null for an even ring.</summary>
    public RingGeometry? Geometry { get; init; }

    /// <summary>Counts by which the ring walks on its hub per revolution, whichever way it turns.</summary>
    public double CreepCountsPerRevolution { get; init; }
}
