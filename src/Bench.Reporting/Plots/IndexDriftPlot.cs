using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Reporting.Text;
using ScottPlot;

namespace Bench.Reporting.Plots;

/// <summary>Where the shaft's index stood on the encoder's ring, over the moves: the only witness of slip, drift and play.</summary>
public static class IndexDriftPlot
{
    /// <summary>Id of the figure.</summary>
    public const string Id = "index";

    private const string Title = "Slip and drift at the shaft's index";
    private const string StepFeature = "index.step_counts";
    private const string DriftFeature = "index.drift_counts_per_100_moves";

    /// <summary>Draws it.</summary>
    public static Figure Draw(RunRecord record)
    {
        if (!record.Start.Bench.HasIndex || record.Start.Profile.IndexWidthCounts is null)
        {
            return Figure.Omitted(Id, Title, "there is no index input, so slip, drift and play between encoder and shaft can't be seen");
        }

        (int Move, DriveDirection Direction, double Place)[] passes =
        [
            .. (record.Features?.Moves ?? []).SelectMany(m => m.IndexCounts.Select(place => (m.Number, m.Direction, place))),
        ];
        if (passes.Length == 0)
        {
            return Figure.Omitted(Id, Title, "the index was not passed in any move");
        }

        double first = passes[0].Place;
        LimitLines limits = LimitLines.Of(record, "index.shift_counts");
        double reach = 1.3 * Math.Max(Math.Max(passes.Max(p => Math.Abs(p.Place - first)), 1), limits.Reach);
        using PlotSheet sheet = new(
            "Move number", "Index from first pass (counts)", passes[0].Move - 1, passes[^1].Move + 1, -reach, reach);

        // A line through steps would say that nothing drifts beside marks that plainly rise.
        bool stepped = record.Judgement?.Findings.Any(f => f.Feature.Name == StepFeature && f.Decision == FindingDecision.DoesNotConform) == true;
        TrendLine? drift = stepped ? null : record.Features?.ShaftDrift;
        if (drift is not null)
        {
            Band(sheet, drift, first);
        }

        sheet.Line([sheet.X0, sheet.X1], [0, 0], PlotColors.Quiet, LinePattern.Solid, 1);
        limits.Draw(sheet, "limit of shift", "count", mirrored: true);
        if (drift is not null)
        {
            sheet.Line([sheet.X0, sheet.X1], [At(drift, drift.PerMove, sheet.X0) - first, At(drift, drift.PerMove, sheet.X1) - first], PlotColors.Data, LinePattern.Solid, 2);
            Limits(sheet, drift, first, LimitLines.LimitOf(record, DriftFeature));
            sheet.Note(sheet.X0, sheet.Y1, $"drift {Per100(drift.PerMove)} counts in 100 moves", PlotColors.Data, Alignment.UpperLeft);
            sheet.Note(sheet.X1, sheet.Y0, $"shaded: 95 %, {Per100(drift.Lower)} to {Per100(drift.Upper)}", PlotColors.Ink, Alignment.LowerRight);
        }

        foreach ((int move, DriveDirection direction, double place) in passes)
        {
            sheet.Mark(
                move,
                place - first,
                direction == DriveDirection.Up ? MarkerShape.FilledTriangleUp : MarkerShape.OpenTriangleDown,
                PlotColors.Data,
                7);
        }

        return Figure.Of(Id, Title, sheet, Caption(record, passes, first) + Drift(record, drift, stepped) + limits.Sentence("a shift", "count"));
    }

    // The slope's interval as the room between its two ends, turned about the middle of the moves.
    private static void Band(PlotSheet sheet, TrendLine drift, double first)
    {
        double[] xs = [sheet.X0, drift.Move, sheet.X1];
        IEnumerable<Coordinates> upper = xs.Select(x => new Coordinates(x, Math.Max(At(drift, drift.Lower, x), At(drift, drift.Upper, x)) - first));
        IEnumerable<Coordinates> lower = xs.Reverse().Select(x => new Coordinates(x, Math.Min(At(drift, drift.Lower, x), At(drift, drift.Upper, x)) - first));
        sheet.Area([.. upper, .. lower], PlotColors.Band, PlotColors.Data, 0.5f);
    }

    // A drift allowed is a slope allowed: dashed lines through the same point.
    private static void Limits(PlotSheet sheet, TrendLine drift, double first, Limit? limit)
    {
        double?[] slopes = [limit?.Upper, limit?.Lower ?? -limit?.Upper];
        foreach (double slope in slopes.OfType<double>().Select(s => s / 100))
        {
            sheet.Line([sheet.X0, sheet.X1], [At(drift, slope, sheet.X0) - first, At(drift, slope, sheet.X1) - first], PlotColors.Alert, LinePattern.Dashed, 1.2f);
        }

        if (limit?.Upper is { } most)
        {
            sheet.Note(sheet.X0, sheet.Y0, $"dashed: limit {Quantity.Number(most)} in 100", PlotColors.Alert, Alignment.LowerLeft);
        }
    }

    private static double At(TrendLine drift, double slope, double move) => drift.Value + (slope * (move - drift.Move));

    private static string Per100(double perMove) => (perMove > 0 ? "+" : string.Empty) + Quantity.Fixed(100 * perMove, 1);

    private static string Drift(RunRecord record, TrendLine? drift, bool stepped) => stepped
        ? " No drift is drawn, for the index stepped: what the course does between steps is told among the findings."
        : drift is null
        ? " No drift is drawn: the index was passed too seldom, or this record does not keep it."
        : $" Line: drift of {Per100(drift.PerMove)} counts in 100 moves, steps taken out (Theil-Sen); shaded: its 95 % interval, {Per100(drift.Lower)} to {Per100(drift.Upper)}."
            + (LimitLines.LimitOf(record, DriftFeature) is { } limit ? $" Dashed slopes: limit of drift, {Wording.Of(limit, "count")} in 100 moves." : string.Empty);

    private static string Caption(RunRecord record, (int Move, DriveDirection Direction, double Place)[] passes, double first)
    {
        string shift = record.Features?.Features.FirstOrDefault(f => f.Name == "index.shift_counts") is { IsAssessed: true } feature
            ? $" Shift from the first to the last part of the run: {Quantity.Of(feature)}."
            : string.Empty;
        return $"{Quantity.Count(passes.Length, "pass", "passes")} of the index, in counts of the encoder from the first pass "
            + $"(at {Quantity.Fixed(first, 1)}): from {Quantity.Fixed(passes.Min(p => p.Place) - first, 1)} "
            + $"to {Quantity.Fixed(passes.Max(p => p.Place) - first, 1)}.{shift} "
            + "Filled triangles up: travel towards rising counts; open triangles down: towards falling counts. "
            + "A steady gap between the two is play; a slope or step is slip.";
    }
}
