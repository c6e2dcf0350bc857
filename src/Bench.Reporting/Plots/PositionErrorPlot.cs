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

    private const double Room = 1.3;
    private const double RoomForEdge = 1.5;
    private const double UsualShare = 0.95;
    private const int MostBeyond = 3;

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
        LimitLines limits = LimitLines.Of(record, "landing.error_counts");
        double reach = Reach(landed, limits);
        using PlotSheet sheet = new("Move number", "Landing error (counts)", moves[0].Number - 1, moves[^1].Number + 1, -reach, reach);
        sheet.Line([sheet.X0, sheet.X1], [0, 0], PlotColors.Quiet, LinePattern.Solid, 1);
        limits.Draw(sheet, "limit", "count");
        foreach (MoveFeatures move in landed)
        {
            if (move.LandingErrorCounts is { } total)
            {
                Mark(sheet, move.Number, total, MarkerShape.OpenCircle, PlotColors.Quiet, 5);
            }

            Mark(sheet, move.Number, move.UnitErrorCounts!.Value, Shapes[PortIndex(ports, move) % Shapes.Length], PlotColors.Data, 7);
        }

        foreach (MoveFeatures move in moves.Except(landed))
        {
            sheet.Mark(move.Number, sheet.Y0 * 0.92, MarkerShape.Eks, PlotColors.Alert);
        }

        return Figure.Of(Id, Title, sheet, Caption(moves, landed, ports, limits) + Beyond(landed, reach) + limits.Sentence("a mean", "count"));
    }

    // One landing far off must not press all others and the limits into one line: it stands at the edge, with its number below.
    private static double Reach(MoveFeatures[] landed, LimitLines limits)
    {
        double[] errors = [.. landed.SelectMany(Errors).Select(e => Math.Abs(e.Error)).Order()];
        double most = errors[(int)(UsualShare * (errors.Length - 1))];
        double usual = Math.Max(Math.Max(most, 1), limits.Reach);
        return errors[^1] > 2 * usual ? RoomForEdge * usual : Room * Math.Max(usual, errors[^1]);
    }

    private static IEnumerable<(string Of, double Error)> Errors(MoveFeatures move) => move.LandingErrorCounts is { } total
        ? [("the unit's share", move.UnitErrorCounts!.Value), ("the total", total)]
        : [("the unit's share", move.UnitErrorCounts!.Value)];

    private static void Mark(PlotSheet sheet, int move, double error, MarkerShape shape, Color color, float size)
    {
        if (Math.Abs(error) <= sheet.Y1)
        {
            sheet.Mark(move, error, shape, color, size);
        }
        else
        {
            // A triangle that points out of the sheet.
            sheet.Mark(move, 0.96 * Math.Sign(error) * sheet.Y1, error > 0 ? MarkerShape.OpenTriangleUp : MarkerShape.OpenTriangleDown, color, 9);
        }
    }

    private static string Beyond(MoveFeatures[] landed, double reach)
    {
        string[] beyond =
        [
            .. landed.SelectMany(m => Errors(m).Select(e => (m.Number, e.Of, e.Error))).Where(e => Math.Abs(e.Error) > reach)
                .Select(e => string.Create(CultureInfo.InvariantCulture, $"{e.Of} of move {e.Number}, {Quantity.Fixed(e.Error, 1)}")),
        ];
        return beyond.Length == 0 ? string.Empty
            : $" Triangles at the edge lie beyond the scale: {string.Join("; ", beyond.Take(MostBeyond))}{(beyond.Length > MostBeyond ? "; …" : string.Empty)}.";
    }

    private static int PortIndex(IReadOnlyList<Port> ports, MoveFeatures move) =>
        Math.Max(0, ports.ToList().FindIndex(p => p.Name == move.ToPort));

    private static string Caption(MoveFeatures[] moves, MoveFeatures[] landed, IReadOnlyList<Port> ports, LimitLines limits)
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
            + (limits.Limit is null ? "The profile sets no limit for the mean error." : "Dashed: limits for the mean of the unit's share at a port.");
    }
}
