namespace Bench.Analysis.Positioning;

/// <summary>
/// Positioning over all targets (ISO 230-2:2014; C3), in the unit of the deviations. From one side only, the whole is that
/// <see cref="OneSide"/>. What needs a standard deviation is null where a target has but one run from a side it was
/// approached from: a number without scatter would look like a perfect one.
/// </summary>
/// <param name="Targets">The targets, at least one.</param>
public sealed record PositioningStatistics(IReadOnlyList<TargetStatistics> Targets)
{
    /// <summary>All targets approached upwards; null when some never was.</summary>
    public OneSide? Up => Targets.All(t => t.Up is not null) ? new OneSide([.. Targets.Select(t => t.Up!.Value)]) : null;

    /// <summary>All targets approached downwards; null when some never was.</summary>
    public OneSide? Down => Targets.All(t => t.Down is not null) ? new OneSide([.. Targets.Select(t => t.Down!.Value)]) : null;

    /// <summary>Reversal value B: greatest |B_i|; null from one side only.</summary>
    public double? Reversal => Targets.Max(t => t.Reversal is double b ? Math.Abs(b) : (double?)null);

    /// <summary>Mean reversal value B̄ over the targets approached from both sides, signed; null from one side only.</summary>
    public double? MeanReversal => Targets.Average(t => t.Reversal);

    /// <summary>Bidirectional repeatability R: greatest R_i; null where a side has but one run.</summary>
    public double? Repeatability => Targets.All(t => t.Repeatability is not null) ? Targets.Max(t => t.Repeatability) : null;

    /// <summary>Bidirectional systematic positional deviation E: span of the sides' means.</summary>
    public double SystematicDeviation => Sides().Max(s => s.Mean) - Sides().Min(s => s.Mean);

    /// <summary>Mean bidirectional positional deviation M: span of the targets' means.</summary>
    public double MeanDeviation => Targets.Max(t => t.Mean) - Targets.Min(t => t.Mean);

    /// <summary>Bidirectional accuracy A: span of mean ± 2 s over all targets and sides; null where a side has but one run.</summary>
    public double? Accuracy =>
        Sides().All(s => s.Deviation is not null) ? Sides().Max(s => s.Highest) - Sides().Min(s => s.Lowest) : null;

    /// <summary>Fewest runs to any target from any side it was approached from.</summary>
    public int FewestRuns => Sides().Min(s => s.Runs);

    /// <summary>Every side of every target.</summary>
    public IEnumerable<DirectionStatistics> Sides() =>
        Targets.SelectMany(t => new[] { t.Up, t.Down }).OfType<DirectionStatistics>();
}
