using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Reporting.Text;
using ScottPlot;

namespace Bench.Reporting.Plots;

/// <summary>Limits of a feature as dashed lines, with the guard band inside each, hatched (JCGM 106:2012, 8.3).</summary>
/// <param name="Limit">The limit; null where the profile sets none.</param>
/// <param name="Guard">Width of the guard band: the greatest U among the findings held against it; null where the value alone decides, or nothing was found.</param>
internal sealed record LimitLines(Limit? Limit, double? Guard)
{
    /// <summary>Limit and guard band of a feature in a run.</summary>
    public static LimitLines Of(RunRecord record, string feature) => new(
        LimitOf(record, feature),
        (record.Judgement?.Findings ?? [])
            .Where(f => f.Feature.Name == feature && f.Limit.Rule == DecisionRule.Guarded && f.Decision != FindingDecision.NotAssessable)
            .Max(f => f.Feature.ExpandedUncertainty) is double u and > 0 ? u : null);

    /// <summary>The limit of a feature in a run's profile.</summary>
    public static Limit? LimitOf(RunRecord record, string feature) =>
        record.Start.Profile.Limits.FirstOrDefault(l => l.Feature == feature);

    /// <summary>Greatest distance of a limit from 0, 0 without one.</summary>
    public double Reach => Math.Max(Math.Abs(Limit?.Upper ?? 0), Math.Abs(Limit?.Lower ?? 0));

    /// <summary>Lower limit: of a magnitude the mirrored upper one.</summary>
    private double? Lower(bool mirrored) => Limit?.Lower ?? (mirrored ? -Limit?.Upper : null);

    /// <summary>Draws them.</summary>
    /// <param name="sheet">Where.</param>
    /// <param name="name">What stands before the number.</param>
    /// <param name="unit">Unit of the axis.</param>
    /// <param name="mirrored">Whether the limit is one of magnitude, so that it stands on both sides of 0.</param>
    public void Draw(PlotSheet sheet, string name, string unit, bool mirrored = false)
    {
        if (Limit?.Upper is { } upper)
        {
            sheet.Hatch(Math.Max(upper - (Guard ?? 0), Middle(mirrored)), upper);
            sheet.Level(upper, $"{name} {Quantity.Of(upper, unit)}", PlotColors.Alert, LinePattern.Dashed);
        }

        if (Lower(mirrored) is { } lower)
        {
            sheet.Hatch(lower, Math.Min(lower + (Guard ?? 0), Middle(mirrored)));
            sheet.Level(lower, $"{name} {Quantity.Of(lower, unit)}", PlotColors.Alert, LinePattern.Dashed, under: true);
        }

        if (Guard is { } guard && (Limit?.Upper ?? Lower(mirrored)) is { } edge)
        {
            sheet.Note(sheet.X0, edge, $"hatched: guard band, U = {Quantity.Rounded(guard, unit)}", PlotColors.Ink, Limit?.Upper is null ? Alignment.UpperLeft : Alignment.LowerLeft);
        }
    }

    /// <summary>What the hatching means, as a sentence; empty where there is none.</summary>
    /// <param name="what">What is undecided there.</param>
    /// <param name="unit">Unit of the axis.</param>
    public string Sentence(string what, string unit) => Guard is { } guard && Limit is not null
        ? $" Hatched: the guard band inside each limit, as wide as U ({Quantity.Rounded(guard, unit)}), in which {what} is undecided."
        : string.Empty;

    // Where U is greater than the room between two limits, the bands meet in the middle.
    private double Middle(bool mirrored) => Lower(mirrored) is { } lower && Limit?.Upper is { } upper ? (lower + upper) / 2
        : Limit?.Upper is null ? double.MaxValue : double.MinValue;
}
