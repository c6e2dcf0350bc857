namespace Bench.Analysis.Positioning;

/// <summary>Positioning over all targets (ISO 230-2; C3). From one side only, the unidirectional forms.</summary>
/// <param name="Targets">The targets, at least one.</param>
public sealed record PositioningStatistics(IReadOnlyList<TargetStatistics> Targets)
{
    /// <summary>Reversal B: greatest |B_i|; null from one side only.</summary>
    public double? Reversal => Targets.Max(t => t.Reversal is double b ? Math.Abs(b) : (double?)null);

    /// <summary>Repeatability R: greatest R_i.</summary>
    public double Repeatability => Targets.Max(t => t.Repeatability);

    /// <summary>Systematic error E: span of the sides' means.</summary>
    public double SystematicError => Sides().Max(s => s.Mean) - Sides().Min(s => s.Mean);

    /// <summary>Mean error M: span of the targets' means.</summary>
    public double MeanError => Targets.Max(t => t.Mean) - Targets.Min(t => t.Mean);

    /// <summary>Accuracy A: span of mean ± 2 s over all targets and sides.</summary>
    public double Accuracy => Sides().Max(s => s.Mean + (2 * s.Deviation)) - Sides().Min(s => s.Mean - (2 * s.Deviation));

    /// <summary>Fewest runs to any target from any side.</summary>
    public int FewestRuns => Sides().Min(s => s.Runs);

    private IEnumerable<DirectionStatistics> Sides() =>
        Targets.SelectMany(t => new[] { t.Up, t.Down }).OfType<DirectionStatistics>();
}
