using System.Globalization;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Reporting.Text;
using ScottPlot;

namespace Bench.Reporting.Plots;

/// <summary>Current of a typical move and of the worst ones, from drive on.</summary>
public static class MoveCurrentPlot
{
    /// <summary>Id of the figure.</summary>
    public const string Id = "current";

    private const string Title = "Current of a typical and of the worst moves";
    private const int MostWorst = 2;

    // Before drive on the meter is read seldom; a line from there to the first reading of the move would be an invention.
    private const double LeadS = 0.05;

    /// <summary>Draws it.</summary>
    public static Figure Draw(RunRecord record, Trace trace)
    {
        List<(string Name, Move Move, double[] Times, double[] Amperes)> courses =
        [
            .. Choose(record)
                .Select(c => (c.Name, c.Move, Course: Course(c.Move, trace)))
                .Where(c => c.Course.Times.Length >= 2)
                .Select(c => (c.Name, c.Move, c.Course.Times, c.Course.Amperes)),
        ];
        if (courses.Count == 0)
        {
            return Figure.Omitted(Id, Title, "no move has current readings");
        }

        ElectricalData nominal = record.Start.Profile.Electrical;
        double top = 1.2 * Math.Max(nominal.StallCurrentA, courses.Max(c => c.Amperes.Max()));
        using PlotSheet sheet = new(
            "Time from drive on (s)", "Current (A)", Math.Min(0, courses.Min(c => c.Times[0])), courses.Max(c => c.Times[^1]), Math.Min(0, courses.Min(c => c.Amperes.Min())), top);
        sheet.Level(nominal.StallCurrentA, $"stall {Quantity.Of(nominal.StallCurrentA, "A")}", PlotColors.Alert, LinePattern.Dashed);
        sheet.Line([sheet.X0, sheet.X1], [nominal.RunningCurrentA, nominal.RunningCurrentA], PlotColors.Ink, LinePattern.Dotted, 1.2f);

        // The courses run along this level: its name stands above the highest of them there.
        double crest = courses.SelectMany(c => c.Times.Zip(c.Amperes)).Where(p => p.First > (sheet.X0 + sheet.X1) / 2)
            .Select(p => p.Second).Append(nominal.RunningCurrentA).Max();

        // Up there stands the name of the stall level; moves that end early leave room below.
        crest = crest > nominal.StallCurrentA / 2 ? nominal.RunningCurrentA : crest;
        sheet.Note(sheet.X1, crest, $"healthy running {Quantity.Of(nominal.RunningCurrentA, "A")} (dotted)", PlotColors.Ink, Alignment.LowerRight);
        for (int i = 0; i < courses.Count; i++)
        {
            (double[] xs, double[] ys) = Decimation.Thin(courses[i].Times, courses[i].Amperes);
            (Color color, LinePattern pattern) = i switch
            {
                0 => (PlotColors.Data, LinePattern.Solid),
                1 => (PlotColors.Alert, LinePattern.DenselyDashed),
                _ => (PlotColors.Quiet, LinePattern.Solid),
            };
            sheet.Line(xs, ys, color, pattern, i == 2 ? 1 : 2);
        }

        return Figure.Of(Id, Title, sheet, string.Join(" ", courses.Select((c, i) => Sentence(c.Name, c.Move, c.Amperes, i))));
    }

    private static List<(string Name, Move Move)> Choose(RunRecord record)
    {
        Dictionary<int, Move> byNumber = record.Moves.ToDictionary(m => m.Number);
        MoveFeatures[] known = [.. (record.Features?.Moves ?? []).Where(m => byNumber.ContainsKey(m.Number))];
        if (known.Length == 0)
        {
            // Aborted before there were features: the last moves are what a reader wants to see.
            return [.. record.Moves.Reverse().Take(1).Select(m => ("last", m))];
        }

        MoveFeatures[] running = [.. known.Where(m => m.RunningCurrentA is not null && m.Passed).OrderBy(m => m.RunningCurrentA).ThenBy(m => m.Number)];
        MoveFeatures? typical = running.Length > 0 ? running[running.Length / 2] : null;
        List<(string, Move)> chosen = typical is null ? [] : [("typical", byNumber[typical.Number])];
        chosen.AddRange(known.Where(m => m != typical)
            .OrderBy(m => m.Passed)
            .ThenByDescending(m => m.CurrentInterruptions)
            .ThenByDescending(m => m.RunningCurrentA ?? m.PeakCurrentA ?? 0)
            .ThenBy(m => m.Number)
            .Take(MostWorst)
            .Select((m, i) => (i == 0 ? "worst" : "second worst", byNumber[m.Number])));
        return chosen;
    }

    private static (double[] Times, double[] Amperes) Course(Move move, Trace trace)
    {
        int first = Math.Clamp(move.FirstSample, 0, trace.Count);
        int count = Math.Clamp(move.SampleCount, 0, trace.Count - first);
        Sample[] metered = [.. trace.Slice(first, count).ToArray().Where(s => s.HasMeters && s.TimeS >= move.DriveOnS - LeadS)];
        return ([.. metered.Select(s => s.TimeS - move.DriveOnS)], [.. metered.Select(s => s.CurrentA)]);
    }

    private static string Sentence(string name, Move move, double[] amperes, int index)
    {
        string line = index switch { 0 => "Solid thick", 1 => "Dashed", _ => "Solid thin" };
        string way = move.FromPort is null || move.ToPort is null ? string.Empty : $" from port {move.FromPort} to port {move.ToPort}";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{line}: the {name} move, number {move.Number}{way}, {Wording.Of(move.End)}; peak {Quantity.Of(amperes.Max(), "A")}, middle value {Quantity.Of(Middle(amperes), "A")}.");
    }

    private static double Middle(double[] values) => values.Order().ElementAt(values.Length / 2);
}
