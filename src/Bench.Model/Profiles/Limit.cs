namespace Bench.Model.Profiles;

/// <summary>Limits for one feature.</summary>
public sealed record Limit
{
    /// <summary>Name of the feature, from <see cref="Features.FeatureCatalog"/>.</summary>
    public required string Feature { get; init; }

    /// <summary>Least allowed value, in the feature's unit; null for none.</summary>
    public double? Lower { get; init; }

    /// <summary>Greatest allowed value, in the feature's unit; null for none.</summary>
    public double? Upper { get; init; }

    /// <summary>How the value is held against the limits.</summary>
    public required DecisionRule Rule { get; init; }

    /// <summary>What follows when they are not met.</summary>
    public required Severity Severity { get; init; }

    /// <summary>Id of the remedy; null unless <see cref="Severity"/> is repair.</summary>
    public string? Remedy { get; init; }
}
