using System.Globalization;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Reporting.Text;
using ScottPlot;

namespace Bench.Reporting.Plots;

/// <summary>
/// The ring as it was seen. Each state has its own form: seen is a thin band, untested an empty one, weak a step out,
/// dead a tall block with a cross.
/// </summary>
public static class RingPlot
{
    /// <summary>Id of the figure.</summary>
    public const string Id = "ring";

    private const string Title = "Sensors around the ring";
    private const double Inner = 0.8;
    private const int DialHeight = 340;
    private const int LegendHeight = 44;

    // A single count of 800 is under a pixel wide: a fault is drawn at least this wide, in turns, so that it is seen.
    private const double LeastTurns = 0.005;
    private const double LeastTurnsBetweenNames = 0.05;
    private const int MostNamed = 6;

    private static readonly SensorState[] Legended = [SensorState.Seen, SensorState.Untested, SensorState.Weak, SensorState.Dead];

    // Ports stand inside the ring.
    private const int MostPortCharacters = 10;

    // At top and bottom a name stands beside the block, not on it.
    private const double LeastNameOffset = 0.12;

    /// <summary>Draws it.</summary>
    public static Figure Draw(RunRecord record)
    {
        if (record.Features?.Ring is not { States.Count: > 0 } map)
        {
            return Figure.Omitted(Id, Title, "the ring was not passed");
        }

        using PlotSheet sheet = PlotSheet.Dial(DialHeight, LegendHeight);
        IReadOnlyList<Arc> arcs = Arcs(map.States);
        foreach (Arc arc in arcs.OrderBy(a => a.State))
        {
            Draw(sheet, arc, map.States.Count);
        }

        foreach (Port port in record.Start.Profile.Ports)
        {
            double turns = (double)port.Count / map.States.Count;
            sheet.Line(
                [X(turns, 0.72), X(turns, Inner)], [Y(turns, 0.72), Y(turns, Inner)], PlotColors.Ink, LinePattern.Solid, 2);
            sheet.Note(X(turns, 0.62), Y(turns, 0.62), PlotText.Shortened(port.Name, MostPortCharacters), PlotColors.Ink, Alignment.MiddleCenter);
        }

        sheet.Note(0, 0.08, $"{Quantity.Percent(map.Coverage)} tested", PlotColors.Ink, Alignment.MiddleCenter);
        sheet.Note(0, -0.08, $"ring of {map.States.Count.ToString(CultureInfo.InvariantCulture)} counts", PlotColors.Quiet, Alignment.MiddleCenter);
        LabelFaults(sheet, arcs, map.States.Count);
        Legend(sheet);
        return Figure.Of(Id, Title, sheet, Caption(map, arcs, record.Start.Profile.Demonstration));
    }

    private static void Draw(PlotSheet sheet, Arc arc, int ring)
    {
        double from = (double)arc.First / ring;
        double to = from + ((double)arc.Length / ring);
        if (arc.State is SensorState.Dead or SensorState.Weak && to - from < LeastTurns)
        {
            double middle = (from + to) / 2;
            (from, to) = (middle - (LeastTurns / 2), middle + (LeastTurns / 2));
        }

        Block(sheet, arc.State, outer => Sector(from, to, Inner, outer));
    }

    // Height and filling tell the states apart without colour.
    private static void Block(PlotSheet sheet, SensorState state, Func<double, IEnumerable<Coordinates>> outline)
    {
        (double outer, Color fill, Color edge, float width) = state switch
        {
            SensorState.Dead => (1.0, PlotColors.Alert, PlotColors.Alert, 1f),
            SensorState.Weak => (0.94, PlotColors.Quiet, PlotColors.Quiet, 1f),
            SensorState.Seen => (0.86, PlotColors.Data, PlotColors.Data, 0.5f),
            _ => (0.86, Colors.Transparent, PlotColors.Quiet, 1f),
        };
        sheet.Area(outline(outer), fill, edge, width);
    }

    // The four states side by side below the dial, each as it stands in the ring.
    private static void Legend(PlotSheet sheet)
    {
        const double swatch = 0.16;
        const double markAbove = 0.05;
        double foot = sheet.Y0 + 0.05;
        double step = (sheet.X1 - sheet.X0) / Legended.Length;
        for (int i = 0; i < Legended.Length; i++)
        {
            SensorState state = Legended[i];
            double x = sheet.X0 + (i * step) + 0.08;
            Block(sheet, state, outer => [new(x, foot), new(x, foot + outer - Inner), new(x + swatch, foot + outer - Inner), new(x + swatch, foot)]);
            if (Sign(state) is { } sign)
            {
                sheet.Mark(x + (swatch / 2), foot + (state == SensorState.Dead ? 0.2 : 0.14) + markAbove, sign.Shape, sign.Color, 9);
            }

            sheet.Note(x + swatch, foot + 0.06, Wording.Of(state), PlotColors.Ink, Alignment.MiddleLeft);
        }
    }

    private static (MarkerShape Shape, Color Color)? Sign(SensorState state) => state switch
    {
        SensorState.Dead => (MarkerShape.Eks, PlotColors.Alert),
        SensorState.Weak => (MarkerShape.OpenTriangleUp, PlotColors.Quiet),
        _ => null,
    };

    private static void LabelFaults(PlotSheet sheet, IReadOnlyList<Arc> arcs, int ring)
    {
        // The worst few are named, unless names would cover each other; the caption lists more.
        List<double> named = [];
        foreach (Arc arc in arcs.Where(a => a.State is SensorState.Dead or SensorState.Weak)
            .OrderByDescending(a => a.State).ThenByDescending(a => a.Length).ThenBy(a => a.First))
        {
            double turns = (arc.First + (arc.Length / 2.0)) / ring;
            if (named.Count >= MostNamed || named.Any(n => Math.Abs(Math.IEEERemainder(n - turns, 1)) < LeastTurnsBetweenNames))
            {
                continue;
            }

            named.Add(turns);
            bool dead = arc.State == SensorState.Dead;
            double edge = dead ? 1.06 : 1.0;
            (MarkerShape shape, Color color) = Sign(arc.State)!.Value;
            sheet.Mark(X(turns, edge), Y(turns, edge), shape, color, 9);
            bool leftwards = X(turns, 1) < 0;
            double x = (leftwards ? -1 : 1) * Math.Max(LeastNameOffset, Math.Abs(X(turns, 1.12)));
            double y = Y(turns, 1.04);
            sheet.Note(x, y, Wording.Of(arc.State), PlotColors.Ink, leftwards ? Alignment.LowerRight : Alignment.LowerLeft);
            sheet.Note(x, y, arc.Range(ring), PlotColors.Ink, leftwards ? Alignment.UpperRight : Alignment.UpperLeft);
        }
    }

    private static List<Arc> Arcs(IReadOnlyList<SensorState> states)
    {
        List<Arc> arcs = [];
        for (int first = 0; first < states.Count;)
        {
            int end = first + 1;
            while (end < states.Count && states[end] == states[first])
            {
                end++;
            }

            arcs.Add(new Arc(states[first], first, end - first));
            first = end;
        }

        // Count N - 1 and count 0 are neighbours.
        if (arcs.Count > 1 && arcs[0].State == arcs[^1].State)
        {
            arcs[^1] = arcs[^1] with { Length = arcs[^1].Length + arcs[0].Length };
            arcs.RemoveAt(0);
        }

        return arcs;
    }

    private static IEnumerable<Coordinates> Sector(double from, double to, double inner, double outer)
    {
        int steps = Math.Max(1, (int)Math.Ceiling((to - from) * 180));
        for (int i = 0; i <= steps; i++)
        {
            double turns = from + ((to - from) * i / steps);
            yield return new Coordinates(X(turns, outer), Y(turns, outer));
        }

        for (int i = steps; i >= 0; i--)
        {
            double turns = from + ((to - from) * i / steps);
            yield return new Coordinates(X(turns, inner), Y(turns, inner));
        }
    }

    // Count 0 at the top, rising clockwise, as on a dial.
    private static double X(double turns, double radius) => radius * Math.Sin(2 * Math.PI * turns);

    private static double Y(double turns, double radius) => radius * Math.Cos(2 * Math.PI * turns);

    private static string Caption(RingMap map, IReadOnlyList<Arc> arcs, Demonstration asked)
    {
        const int mostListed = 12;
        int Number(SensorState state) => map.States.Count(s => s == state);
        string List(SensorState state)
        {
            Arc[] of = [.. arcs.Where(a => a.State == state)];
            return of.Length == 0
                ? string.Empty
                : " (" + string.Join(", ", of.Take(mostListed).Select(a => a.Range(map.States.Count))) + (of.Length > mostListed ? ", …)" : ")");
        }

        string Phrase(SensorState state, string meaning) =>
            Number(state) == 0 ? string.Empty : $"; {Quantity.Number(Number(state))} {Wording.Of(state)}{List(state)}, {meaning}";
        return $"Of {Quantity.Number(map.States.Count)} counts {Quantity.Number(Number(SensorState.Seen))} seen (thin band)"
            + Phrase(SensorState.Dead, "passed often enough and never seen (tall block and cross)")
            + Phrase(SensorState.Weak, "seen too seldom (low block and triangle)")
            + Phrase(SensorState.Untested, "passed too seldom to say (empty band)")
            + (Number(SensorState.Dead) + Number(SensorState.Weak) == 0 ? "; none dead, none weak. " : ". ")
            + $"Tested with the stated power: {Quantity.Percent(map.Coverage)} of the ring, {Quantity.Percent(asked.RingCoverage)} asked for. "
            + "Count 0 at the top, rising clockwise; strokes inside mark the ports.";
    }

    private sealed record Arc(SensorState State, int First, int Length)
    {
        public string Range(int ring) =>
            Length == 1
                ? First.ToString(CultureInfo.InvariantCulture)
                : string.Create(CultureInfo.InvariantCulture, $"{First}–{(First + Length - 1) % ring}");
    }
}
