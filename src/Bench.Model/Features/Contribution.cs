using System.Text.Json.Serialization;

namespace Bench.Model.Features;

/// <summary>One line of an uncertainty budget (JCGM 100:2008, 4 and 5): what makes a feature uncertain, and by how much.</summary>
/// <param name="Source">What it is, in plain words; unique in its budget.</param>
/// <param name="Type">How it was evaluated.</param>
/// <param name="Distribution">Its distribution.</param>
/// <param name="StandardUncertainty">Standard uncertainty of the source, above 0, in <see cref="Unit"/>.</param>
public sealed record Contribution(string Source, EvaluationType Type, ErrorDistribution Distribution, double StandardUncertainty)
{
    /// <summary>Sensitivity: change of the feature per change of the source, in the feature's unit per <see cref="Unit"/>.</summary>
    public double Sensitivity { get; init; } = 1;

    /// <summary>Unit of the source; null where it is the feature's.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Unit { get; init; }

    /// <summary>Degrees of freedom of the standard uncertainty; null where it is taken as exactly known (JCGM 100, G.4.3).</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? DegreesOfFreedom { get; init; }

    /// <summary>
    /// How it falls with the number n of observations, as n to the power of minus this: 0.5 where it averages, 0 where more of
    /// them would not lessen it.
    /// </summary>
    [JsonIgnore]
    public double FallsAsPower { get; init; } = Type == EvaluationType.A ? 0.5 : 0;

    /// <summary>What it adds to the feature's standard uncertainty, |c| u, in the feature's unit.</summary>
    [JsonIgnore]
    public double InFeature => Math.Abs(Sensitivity) * StandardUncertainty;
}
