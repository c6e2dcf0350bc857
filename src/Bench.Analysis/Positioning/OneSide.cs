namespace Bench.Analysis.Positioning;

/// <summary>Positioning over all targets approached from one side (ISO 230-2:2014, unidirectional; C3).</summary>
/// <param name="Targets">The targets, at least one.</param>
public sealed record OneSide(IReadOnlyList<DirectionStatistics> Targets)
{
    /// <summary>Unidirectional repeatability R↑ or R↓: greatest 4 s_i; null where a target has but one run.</summary>
    public double? Repeatability => Targets.All(t => t.Deviation is not null) ? Targets.Max(t => t.Repeatability) : null;

    /// <summary>Unidirectional systematic positional deviation E↑ or E↓: span of the means.</summary>
    public double SystematicDeviation => Targets.Max(t => t.Mean) - Targets.Min(t => t.Mean);

    /// <summary>Unidirectional accuracy A↑ or A↓: span of mean ± 2 s; null where a target has but one run.</summary>
    public double? Accuracy => Targets.All(t => t.Deviation is not null) ? Targets.Max(t => t.Highest) - Targets.Min(t => t.Lowest) : null;
}
