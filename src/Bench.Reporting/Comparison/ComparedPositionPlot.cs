using Bench.Model.Comparisons;
using Bench.Model.Features;
using Bench.Model.Runs;
using Bench.Reporting.Plots;
using Bench.Reporting.Text;
using ScottPlot;

namespace Bench.Reporting.Comparison;

/// <summary>The unit's share of the landing error by move, of both runs in one plot.</summary>
internal static class ComparedPositionPlot
{
    /// <summary>Id of the figure.</summary>
    public const string Id = "compared-position";

    private const string Title = "Position error by move, both runs";

    public static Figure Draw(RunComparison comparison)
    {
        MoveFeatures[] a = Landed(comparison.A), b = Landed(comparison.B);
        if (a.Length == 0 || b.Length == 0)
        {
            return Figure.Omitted(Id, Title, $"in {(a.Length == 0 ? "A" : "B")} no move landed at a port");
        }

        LimitLines limits = new(LimitLines.LimitOf(comparison.B.Record, "landing.error_counts"), Guard: null);
        double reach = 1.3 * Math.Max(
            Math.Max(1, a.Concat(b).Max(m => Math.Abs(m.UnitErrorCounts!.Value))),
            limits.Reach);
        int first = Math.Min(a[0].Number, b[0].Number), last = Math.Max(a[^1].Number, b[^1].Number);
        using PlotSheet sheet = new("Move number", "Landing error (counts)", first - 1, last + 1, -reach, reach);
        sheet.Line([sheet.X0, sheet.X1], [0, 0], PlotColors.Quiet, LinePattern.Solid, 1);
        limits.Draw(sheet, "limit", "count");
        foreach (MoveFeatures move in a)
        {
            sheet.Mark(move.Number, move.UnitErrorCounts!.Value, MarkerShape.OpenCircle, PlotColors.Quiet, 7);
        }

        foreach (MoveFeatures move in b)
        {
            sheet.Mark(move.Number, move.UnitErrorCounts!.Value, MarkerShape.FilledDiamond, PlotColors.Data, 7);
        }

        return Figure.Of(Id, Title, sheet, $"The unit's share of the landing error. Open circles: A, {Spread(a)}. Filled diamonds: B, {Spread(b)}.{(limits.Limit is null ? string.Empty : " Dashed: limits of B's profile for the mean at a port.")}");
    }

    private static MoveFeatures[] Landed(SealedRun run) =>
        [.. (run.Record.Features?.Moves ?? []).Where(m => m.ToPort is not null && m.UnitErrorCounts is not null)];

    private static string Spread(MoveFeatures[] moves) =>
        $"{Quantity.Count(moves.Length, "landing", "landings")} from {Quantity.Fixed(moves.Min(m => m.UnitErrorCounts!.Value), 1)} to {Quantity.Fixed(moves.Max(m => m.UnitErrorCounts!.Value), 1)} counts";
}
