using System.Text.Json.Serialization;
using Bench.Model.Instruments;

namespace Bench.Model.Features;

/// <summary>All that extraction makes of a run: the input of judging.</summary>
public sealed record RunFeatures
{
    /// <summary>Features of the run.</summary>
    public required IReadOnlyList<Feature> Features { get; init; }

    /// <summary>Features of each move.</summary>
    public required IReadOnlyList<MoveFeatures> Moves { get; init; }

    /// <summary>Sightings around the ring.</summary>
    public required RingMap Ring { get; init; }

    /// <summary>Mean current by angle.</summary>
    public required AngleProfile Current { get; init; }

    /// <summary>Drift of the shaft's index against the encoder, counts; null where it was not to be told, and in records of versions that did not keep it.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public TrendLine? ShaftDrift { get; init; }

    /// <summary>The sequential test.</summary>
    public required DemonstrationResult Demonstration { get; init; }

    /// <summary>The tests of stages that provoke, in the order they were run; null when none was.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<ProvocationResult>? Provocations { get; init; }

    /// <summary>Poll rate of position held while the drive was on, 1/s; null with no moves.</summary>
    public double? PositionRateHz { get; init; }

    /// <summary>Age and jitter of the readings; null in records of versions that did not keep them.</summary>
    public SamplingTimes? Sampling { get; init; }

    /// <summary>Exchanges with each device.</summary>
    public required IReadOnlyList<LinkCounts> Links { get; init; }
}
