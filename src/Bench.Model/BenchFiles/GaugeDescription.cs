namespace Bench.Model.BenchFiles;

/// <summary>What a gauge study found a bench itself to add to a feature's uncertainty: mounting, leads, which position.</summary>
public sealed record GaugeDescription
{
    /// <summary>Name of the feature, from <see cref="Features.FeatureCatalog"/>; a measured one.</summary>
    public required string Feature { get; init; }

    /// <summary>Name of the unit position; null for all that have no row of their own.</summary>
    public string? Position { get; init; }

    /// <summary>Standard uncertainty, above 0, in the feature's unit.</summary>
    public required double StandardUncertainty { get; init; }

    /// <summary>Day of the study.</summary>
    public required DateOnly FoundOn { get; init; }

    /// <summary>Day by which it must be repeated.</summary>
    public required DateOnly DueOn { get; init; }

    /// <summary>Number of its report.</summary>
    public required string Study { get; init; }
}
