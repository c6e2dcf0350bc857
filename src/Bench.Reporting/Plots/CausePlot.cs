using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Reporting.Text;
using ScottPlot;

namespace Bench.Reporting.Plots;

/// <summary>Ranked causes with their probabilities as bars.</summary>
public static class CausePlot
{
    /// <summary>Id of the figure.</summary>
    public const string Id = "causes";

    private const string Title = "Ranked causes";
    private const int MostBars = 5;
    private const double HalfBar = 0.32;

    /// <summary>Draws it.</summary>
    public static Figure Draw(RunRecord record)
    {
        if (record.Judgement is not { Causes.Count: > 0 } judgement)
        {
            return Figure.Omitted(Id, Title, "causes were not ranked");
        }

        Cause[] shown = [.. judgement.Causes.Take(MostBars)];
        double rest = judgement.Causes.Skip(MostBars).Sum(c => c.Probability);
        List<(string Name, double Probability)> bars = [.. shown.Select(c => (c.Name, c.Probability))];
        if (judgement.Causes.Count > MostBars)
        {
            bars.Add(("all others", rest));
        }

        using PlotSheet sheet = new("Probability (%)", string.Empty, 0, 100, -bars.Count, 0.1, 70 + (40 * bars.Count));
        for (int i = 0; i < bars.Count; i++)
        {
            double y = -i - 0.35;
            double percent = 100 * bars[i].Probability;
            sheet.Area(
                [new(0, y - HalfBar), new(percent, y - HalfBar), new(percent, y), new(0, y)],
                PlotColors.Data,
                PlotColors.Data);
            sheet.Note(0, y - 0.06, $"{bars[i].Name}, {Quantity.Percent(bars[i].Probability)}", PlotColors.Ink, Alignment.LowerLeft);
        }

        sheet.YWords([], []);
        return Figure.Of(
            Id,
            Title,
            sheet,
            "Probability of each cause given the findings: "
            + string.Join("; ", bars.Select(b => $"{b.Name} {Quantity.Percent(b.Probability)}")) + ".");
    }
}
