namespace Bench.Model.Features;

/// <summary>Age and jitter of a run's readings while the drive was on.</summary>
public sealed record SamplingTimes
{
    /// <summary>Position.</summary>
    public required ReadingTimes Position { get; init; }

    /// <summary>Current, voltage and inputs.</summary>
    public required ReadingTimes Meters { get; init; }
}
