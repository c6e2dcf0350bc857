using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Reporting.Text;
using ScottPlot;

namespace Bench.Reporting.Plots;

/// <summary>Supply voltage over the run, with the band in which a test counts.</summary>
public static class SupplyPlot
{
    /// <summary>Id of the figure.</summary>
    public const string Id = "supply";

    private const string Title = "Supply voltage over the run";

    /// <summary>Draws it.</summary>
    public static Figure Draw(RunRecord record, Trace trace)
    {
        List<double> times = [];
        List<double> volts = [];
        foreach (ref readonly Sample sample in trace.All)
        {
            if (sample.HasMeters && double.IsFinite(sample.VoltageV))
            {
                times.Add(sample.TimeS);
                volts.Add(sample.VoltageV);
            }
        }

        if (times.Count < 2)
        {
            return Figure.Omitted(Id, Title, "the trace holds no voltage readings");
        }

        ElectricalData nominal = record.Start.Profile.Electrical;
        double least = volts.Min();
        double greatest = volts.Max();
        double foot = Math.Min(least, nominal.SupplyMinV);
        double top = Math.Max(greatest, nominal.SupplyMaxV);
        double margin = 0.12 * (top - foot);
        using PlotSheet sheet = new("Time from start of run (s)", "Supply (V)", times[0], times[^1], foot - margin, top + margin);
        sheet.Band(nominal.SupplyMinV, nominal.SupplyMaxV);
        (double[] xs, double[] ys) = Decimation.Thin(times, volts);
        sheet.Line(xs, ys, PlotColors.Data, LinePattern.Solid, 1);
        sheet.Level(nominal.SupplyMaxV, $"greatest {Quantity.Of(nominal.SupplyMaxV, "V")}", PlotColors.Alert, LinePattern.Dashed);
        sheet.Level(nominal.SupplyMinV, $"least {Quantity.Of(nominal.SupplyMinV, "V")}", PlotColors.Alert, LinePattern.Dashed, under: true);

        int outside = volts.Count(v => v < nominal.SupplyMinV || v > nominal.SupplyMaxV);
        return Figure.Of(
            Id,
            Title,
            sheet,
            $"{Quantity.Count(volts.Count, "reading", "readings")} from {Quantity.Fixed(least, 2)} V to {Quantity.Fixed(greatest, 2)} V. "
            + $"Shaded: the band in which a test counts, {Quantity.Of(nominal.SupplyMinV, "V")} to {Quantity.Of(nominal.SupplyMaxV, "V")}; "
            + (outside == 0 ? "no reading lies outside." : $"{Quantity.Count(outside, "reading lies", "readings lie")} outside."));
    }
}
