using System.Text.Json.Serialization;
using Bench.Model.Moves;

namespace Bench.Model.Features;

/// <summary>The sequential test on the moves of a stage that provokes (C11), counted apart from the unit's other moves.</summary>
public sealed record ProvocationResult
{
    /// <summary>The stage.</summary>
    public required StageKind Stage { get; init; }

    /// <summary>Its test; the plan in it was computed beforehand.</summary>
    public required DemonstrationResult Test { get; init; }

    /// <summary>Openings of the connector while it was moved by hand, in order; null for any other stage.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<ConnectorDropout>? Dropouts { get; init; }

    /// <summary>One-sided 95 % lower limit of the share of failing moves (Clopper-Pearson); null with no moves.</summary>
    public double? LowerLimit95 { get; init; }
}
