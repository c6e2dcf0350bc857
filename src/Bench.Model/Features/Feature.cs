using System.Text.Json.Serialization;

namespace Bench.Model.Features;

/// <summary>A number computed from traces, with its uncertainty, or the reason there is none.</summary>
/// <param name="Name">Name from <see cref="FeatureCatalog"/>.</param>
/// <param name="Subject">What it is about where there are several, e.g. a port's name; null otherwise.</param>
/// <param name="Value">The value, finite, in <paramref name="Unit"/>; null when not assessable.</param>
/// <param name="StandardUncertainty">Standard uncertainty (GUM), same unit, 0 for exact counts; null when not assessable.</param>
/// <param name="Unit">Unit symbol, "1" for pure numbers.</param>
/// <param name="Observations">Number of independent observations behind it.</param>
/// <param name="NotAssessableBecause">Why there is no value, in plain words; null when there is one.</param>
public sealed record Feature(
    string Name, string? Subject, double? Value, double? StandardUncertainty, string Unit, int Observations,
    string? NotAssessableBecause)
{
    /// <summary>Coverage factor where degrees of freedom are many or taken as infinite (JCGM 100:2008, 6.3.3: about 95 %).</summary>
    public const double UsualCoverageFactor = 2;

    /// <summary>What the standard uncertainty is made of, greatest first: its root sum of squares. Null for exact counts, in findings, and in records of before it was kept.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<Contribution>? Budget { get; init; }

    /// <summary>Effective degrees of freedom of the standard uncertainty (Welch and Satterthwaite; JCGM 100, G.4.1); null for infinite.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? DegreesOfFreedom { get; init; }

    /// <summary>Coverage factor of the expanded uncertainty; null for <see cref="UsualCoverageFactor"/>.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? CoverageFactor { get; init; }

    /// <summary>Expanded uncertainty U = k u, told with every value and used as guard band; null when not assessable.</summary>
    [JsonIgnore]
    public double? ExpandedUncertainty => (CoverageFactor ?? UsualCoverageFactor) * StandardUncertainty;

    /// <summary>Whether there is a value.</summary>
    [JsonIgnore]
    public bool IsAssessed => Value is not null;

    /// <summary>A feature with a value. A value or uncertainty that is not finite makes it not assessable.</summary>
    /// <exception cref="ArgumentException">The name is not in the catalog, or the uncertainty is negative.</exception>
    public static Feature Of(string name, double value, double standardUncertainty, int observations, string? subject = null)
    {
        FeatureDefinition definition = FeatureCatalog.Get(name);
        if (!double.IsFinite(value) || !double.IsFinite(standardUncertainty))
        {
            return Missing(name, "the computation gave no finite number", subject);
        }

        ArgumentOutOfRangeException.ThrowIfNegative(standardUncertainty);
        return new Feature(name, subject, value, standardUncertainty, definition.Unit, observations, null);
    }

    /// <summary>A feature that can't be assessed.</summary>
    /// <exception cref="ArgumentException">The name is not in the catalog.</exception>
    public static Feature Missing(string name, string because, string? subject = null) =>
        new(name, subject, null, null, FeatureCatalog.Get(name).Unit, 0, because);
}
