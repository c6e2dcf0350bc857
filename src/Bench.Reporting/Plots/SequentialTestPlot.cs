using System.Globalization;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Reporting.Text;
using ScottPlot;

namespace Bench.Reporting.Plots;

/// <summary>The path of the sequential test between its two boundaries.</summary>
public static class SequentialTestPlot
{
    /// <summary>Id of the figure.</summary>
    public const string Id = "demonstration";

    private const string Title = "Sequential test of moves";

    /// <summary>Draws it.</summary>
    public static Figure Draw(RunRecord record)
    {
        if (record.Features?.Demonstration is not { Path.Count: > 0 } test)
        {
            return Figure.Omitted(Id, Title, "no move was counted");
        }

        double top = Math.Max(test.RejectAt, test.Path.Max());
        double foot = Math.Min(test.AcceptAt, test.Path.Min());
        double margin = 0.14 * (top - foot);
        double end = Math.Max(test.Path.Count, Math.Ceiling(test.ExpectedMovesAtP0));
        using PlotSheet sheet = new("Counted moves", "Log likelihood ratio (1)", 0, 1.03 * end, foot - margin, top + margin);

        // The boundary's name stands where the path is not: a unit that fails from the start climbs at the left.
        bool climbsEarly = test.Path.Take((int)(end / 2)).Any(ratio => ratio >= test.RejectAt);
        sheet.Level(test.RejectAt, "at or above: fails too often", PlotColors.Alert, LinePattern.Dashed, left: !climbsEarly);
        sheet.Level(test.AcceptAt, "at or below: shown good enough", PlotColors.Ink, LinePattern.Dashed, under: true, left: true);

        double[] xs = [.. Enumerable.Range(0, test.Path.Count + 1).Select(i => (double)i)];
        double[] ys = [0, .. test.Path];
        sheet.Line(xs, ys, PlotColors.Data, LinePattern.Solid, 2);
        for (int i = 1; i < ys.Length; i++)
        {
            if (ys[i] > ys[i - 1])
            {
                sheet.Mark(xs[i], ys[i], MarkerShape.Eks, PlotColors.Alert);
            }
        }

        sheet.Mark(xs[^1], ys[^1], MarkerShape.FilledCircle, PlotColors.Data);
        return Figure.Of(Id, Title, sheet, Caption(test, record.Start.Profile.Demonstration));
    }

    private static string Caption(DemonstrationResult test, Demonstration asked) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"After {Quantity.Count(test.Moves, "move", "moves")} with {test.Failed} failed the log likelihood ratio is {Quantity.Fixed(test.Path[^1], 2)}. ")
        + $"At or below {Quantity.Fixed(test.AcceptAt, 2)} the share of failing moves is shown to be small enough "
        + $"({Quantity.Percent(asked.P0)} against {Quantity.Percent(asked.P1)}); at or above {Quantity.Fixed(test.RejectAt, 2)} it is shown to be too great. "
        + $"Crosses: failed moves. State: {Wording.Of(test.State)}.";
}
