using Bench.Model.Comparisons;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Reporting.Plots;
using Bench.Reporting.Text;
using ScottPlot;

namespace Bench.Reporting.Comparison;

/// <summary>Mean current by angle, of both runs in one plot: a tight spot that came or went stands in one place.</summary>
internal static class ComparedAnglePlot
{
    /// <summary>Id of the figure.</summary>
    public const string Id = "compared-angle";

    private const string Title = "Mean current by angle, both runs";

    public static Figure Draw(RunComparison comparison)
    {
        RunRecord a = comparison.A.Record, b = comparison.B.Record;
        (double Count, double MeanA)[] before = AngleBins.Of(a), after = AngleBins.Of(b);
        if (before.Length < 2 || after.Length < 2)
        {
            return Figure.Omitted(Id, Title, $"in {(before.Length < 2 ? "A" : "B")} no current was read while the unit turned");
        }

        if (comparison.SensorsBecause is { } because)
        {
            return Figure.Omitted(Id, Title, because);
        }

        double top = 1.35 * before.Concat(after).Max(bin => bin.MeanA);
        using PlotSheet sheet = new("Count on the ring (count)", "Mean current (A)", 0, b.Start.Profile.Ring.Counts, 0, top);
        foreach (Port port in b.Start.Profile.Ports)
        {
            sheet.Place(port.Count, port.Name);
        }

        Curve(sheet, before, a, PlotColors.Alert, LinePattern.Dashed);
        Curve(sheet, after, b, PlotColors.Data, LinePattern.Solid);
        return Figure.Of(Id, Title, sheet, $"Dashed: A, {Spread(before)}. Solid: B, {Spread(after)}. Dotted: ports.");
    }

    private static void Curve(PlotSheet sheet, (double Count, double MeanA)[] bins, RunRecord record, Color color, LinePattern pattern)
    {
        foreach ((double Count, double MeanA)[] piece in AngleBins.Unbroken(bins, b => b.Count, record.Features!.Current.BinCounts))
        {
            sheet.Line([.. piece.Select(b => b.Count)], [.. piece.Select(b => b.MeanA)], color, pattern, 2);
        }
    }

    private static string Spread((double Count, double MeanA)[] bins)
    {
        (double Count, double MeanA) peak = bins.MaxBy(b => b.MeanA);
        return $"from {Quantity.Of(bins.Min(b => b.MeanA), "A")} to {Quantity.Of(peak.MeanA, "A")}, greatest about count {Quantity.Fixed(peak.Count, 0)}";
    }
}
