using Bench.Model.Instruments;
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

    private const string Title = "Drift at the shaft's index";

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
        Limit? limit = PositionErrorPlot.LimitOf(record, "index.shift_counts");
        double reach = passes.Max(p => Math.Abs(p.Place - first));
        reach = 1.3 * Math.Max(Math.Max(reach, 1), Math.Max(Math.Abs(limit?.Upper ?? 0), Math.Abs(limit?.Lower ?? 0)));
        using PlotSheet sheet = new(
            "Move number", "Index from first pass (counts)", passes[0].Move - 1, passes[^1].Move + 1, -reach, reach);
        sheet.Line([sheet.X0, sheet.X1], [0, 0], PlotColors.Quiet, LinePattern.Solid, 1);
        if (limit?.Upper is { } upper)
        {
            double lower = limit.Lower ?? -upper;
            sheet.Level(upper, $"limit of shift {Quantity.Of(upper, "count")}", PlotColors.Alert, LinePattern.Dashed);
            sheet.Level(lower, $"limit of shift {Quantity.Of(lower, "count")}", PlotColors.Alert, LinePattern.Dashed, under: true);
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

        return Figure.Of(Id, Title, sheet, Caption(record, passes, first));
    }

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
