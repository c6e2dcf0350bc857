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
    private const double Inner = 0.74;
    private const int Height = 400;

    // A single count of 800 is under a pixel wide: a fault is drawn at least this wide, in turns, so that it is seen.
    private const double LeastTurns = 0.005;

    /// <summary>Draws it.</summary>
    public static Figure Draw(RunRecord record)
    {
        if (record.Features?.Ring is not { States.Count: > 0 } map)
        {
            return Figure.Omitted(Id, Title, "the ring was not passed");
        }

        using PlotSheet sheet = PlotSheet.Square(Height);
        IReadOnlyList<Arc> arcs = Arcs(map.States);
        foreach (Arc arc in arcs.OrderBy(a => a.State))
        {
            Draw(sheet, arc, map.States.Count);
        }

        foreach (Port port in record.Start.Profile.Ports)
        {
            double turns = (double)port.Count / map.States.Count;
            sheet.Line(
                [X(turns, 0.6), X(turns, Inner)], [Y(turns, 0.6), Y(turns, Inner)], PlotColors.Ink, LinePattern.Solid, 2);
            sheet.Note(X(turns, 0.5), Y(turns, 0.5), port.Name, PlotColors.Ink, Alignment.MiddleCenter);
        }

        sheet.Note(0, 0.08, $"{Quantity.Percent(map.Coverage)} tested", PlotColors.Ink, Alignment.MiddleCenter);
        sheet.Note(0, -0.08, $"ring of {map.States.Count.ToString(CultureInfo.InvariantCulture)} counts", PlotColors.Quiet, Alignment.MiddleCenter);
        LabelFaults(sheet, arcs, map.States.Count);
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

        switch (arc.State)
        {
            case SensorState.Dead:
                sheet.Area(Sector(from, to, Inner, 1.0), PlotColors.Alert, PlotColors.Alert);
                break;
            case SensorState.Weak:
                sheet.Area(Sector(from, to, Inner, 0.9), PlotColors.Quiet, PlotColors.Quiet);
                break;
            case SensorState.Seen:
                sheet.Area(Sector(from, to, Inner, 0.8), PlotColors.Data, PlotColors.Data, 0.5f);
                break;
            default:
                sheet.Area(Sector(from, to, Inner, 0.8), Colors.Transparent, PlotColors.Quiet);
                break;
        }
    }

    private static void LabelFaults(PlotSheet sheet, IReadOnlyList<Arc> arcs, int ring)
    {
        // The longest few are named; the caption lists more. Names of neighbours would cover each other.
        foreach (Arc arc in arcs.Where(a => a.State is SensorState.Dead or SensorState.Weak)
            .OrderByDescending(a => a.State).ThenByDescending(a => a.Length).ThenBy(a => a.First).Take(6))
        {
            double turns = (arc.First + (arc.Length / 2.0)) / ring;
            bool dead = arc.State == SensorState.Dead;
            sheet.Mark(
                X(turns, dead ? 1.06 : 0.96),
                Y(turns, dead ? 1.06 : 0.96),
                dead ? MarkerShape.Eks : MarkerShape.OpenTriangleUp,
                dead ? PlotColors.Alert : PlotColors.Quiet,
                9);
            double x = X(turns, 1.13);
            sheet.Note(
                x, Y(turns, 1.13), $"{Wording.Of(arc.State)} {arc.Range(ring)}", PlotColors.Ink, x < 0 ? Alignment.MiddleRight : Alignment.MiddleLeft);
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

        return string.Create(
                CultureInfo.InvariantCulture,
                $"Of {map.States.Count} counts: {Number(SensorState.Seen)} seen (thin band); {Number(SensorState.Dead)} dead{List(SensorState.Dead)}, passed often enough and never seen (tall block and cross); {Number(SensorState.Weak)} weak{List(SensorState.Weak)}, seen too seldom (low block and triangle); {Number(SensorState.Untested)} untested (empty band). ")
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
