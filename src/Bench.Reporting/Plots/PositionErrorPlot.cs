using System.Globalization;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Reporting.Text;
using ScottPlot;

namespace Bench.Reporting.Plots;

/// <summary>Landing error of each move: the unit's share by port, and the total with the bench's share in it.</summary>
public static class PositionErrorPlot
{
    /// <summary>Id of the figure.</summary>
    public const string Id = "position";

    private const string Title = "Position error by move and port";

    private static readonly MarkerShape[] Shapes =
    [
        MarkerShape.FilledCircle, MarkerShape.FilledSquare, MarkerShape.FilledTriangleUp, MarkerShape.FilledDiamond,
        MarkerShape.FilledTriangleDown, MarkerShape.Asterisk, MarkerShape.Cross, MarkerShape.HashTag,
    ];

    private static readonly string[] ShapeWords =
        ["circle", "square", "triangle", "diamond", "triangle down", "asterisk", "plus", "hash"];

    /// <summary>Draws it.</summary>
    public static Figure Draw(RunRecord record)
    {
        MoveFeatures[] moves = [.. (record.Features?.Moves ?? []).Where(m => m.ToPort is not null)];
        MoveFeatures[] landed = [.. moves.Where(m => m.UnitErrorCounts is not null)];
        if (landed.Length == 0)
        {
            return Figure.Omitted(Id, Title, "no move landed at a port");
        }

        IReadOnlyList<Port> ports = record.Start.Profile.Ports;
        Limit? limit = LimitOf(record, "landing.error_counts");
        double reach = landed.Max(m => Math.Max(Math.Abs(m.UnitErrorCounts!.Value), Math.Abs(m.LandingErrorCounts ?? 0)));
        reach = 1.3 * Math.Max(Math.Max(reach, 1), Math.Max(Math.Abs(limit?.Upper ?? 0), Math.Abs(limit?.Lower ?? 0)));
        using PlotSheet sheet = new("Move number", "Landing error (counts)", moves[0].Number - 1, moves[^1].Number + 1, -reach, reach);
        sheet.Line([sheet.X0, sheet.X1], [0, 0], PlotColors.Quiet, LinePattern.Solid, 1);
        Limits(sheet, limit);
        foreach (MoveFeatures move in landed)
        {
            if (move.LandingErrorCounts is { } total)
            {
                sheet.Mark(move.Number, total, MarkerShape.OpenCircle, PlotColors.Quiet, 5);
            }

            sheet.Mark(move.Number, move.UnitErrorCounts!.Value, Shapes[PortIndex(ports, move) % Shapes.Length], PlotColors.Data, 7);
        }

        foreach (MoveFeatures move in moves.Except(landed))
        {
            sheet.Mark(move.Number, sheet.Y0 * 0.92, MarkerShape.Eks, PlotColors.Alert);
        }

        return Figure.Of(Id, Title, sheet, Caption(moves, landed, ports, limit));
    }

    internal static Limit? LimitOf(RunRecord record, string feature) =>
        record.Start.Profile.Limits.FirstOrDefault(l => l.Feature == feature);

    /// <summary>The limits for the mean error, where there are any.</summary>
    internal static void Limits(PlotSheet sheet, Limit? limit)
    {
        if (limit?.Upper is { } upper)
        {
            sheet.Level(upper, $"limit {Quantity.Of(upper, "count")}", PlotColors.Alert, LinePattern.Dashed);
        }

        if (limit?.Lower is { } lower)
        {
            sheet.Level(lower, $"limit {Quantity.Of(lower, "count")}", PlotColors.Alert, LinePattern.Dashed, under: true);
        }
    }

    private static int PortIndex(IReadOnlyList<Port> ports, MoveFeatures move) =>
        Math.Max(0, ports.ToList().FindIndex(p => p.Name == move.ToPort));

    private static string Caption(MoveFeatures[] moves, MoveFeatures[] landed, IReadOnlyList<Port> ports, Limit? limit)
    {
        IEnumerable<string> perPort = ports.Select((port, index) =>
        {
            double[] errors = [.. landed.Where(m => m.ToPort == port.Name).Select(m => m.UnitErrorCounts!.Value)];
            string spread = errors.Length == 0
                ? "no landing"
                : $"{errors.Length.ToString(CultureInfo.InvariantCulture)} from {Quantity.Fixed(errors.Min(), 1)} to {Quantity.Fixed(errors.Max(), 1)}";
            return $"{port.Name} ({ShapeWords[index % ShapeWords.Length]}): {spread}";
        });
        int without = moves.Length - landed.Length;
        return "Filled: the unit's share of the landing error, in counts. Port " + string.Join("; port ", perPort) + ". "
            + "Open circles: the total, with the bench's own share. "
            + (without > 0 ? $"Crosses at the foot: {Quantity.Count(without, "move that did not land", "moves that did not land")}. " : string.Empty)
            + (limit is null ? "The profile sets no limit for the mean error." : "Dashed: limits for the mean of the unit's share at a port.");
    }
}
