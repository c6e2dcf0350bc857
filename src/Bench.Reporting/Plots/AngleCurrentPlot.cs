using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Reporting.Text;
using ScottPlot;

namespace Bench.Reporting.Plots;

/// <summary>Mean current by angle, with the ports: a tight spot stands in one place, brush noise does not.</summary>
public static class AngleCurrentPlot
{
    /// <summary>Id of the figure.</summary>
    public const string Id = "angle";

    private const string Title = "Mean current by angle";

    /// <summary>Draws it.</summary>
    public static Figure Draw(RunRecord record)
    {
        (double Count, double MeanA)[] bins = Bins(record);
        if (bins.Length < 2)
        {
            return Figure.Omitted(Id, Title, "no current was read while the unit turned");
        }

        double? spot = SpotLevel(record);
        double top = 1.35 * Math.Max(bins.Max(b => b.MeanA), Math.Max(spot ?? 0, record.Start.Profile.Electrical.RunningCurrentA));
        using PlotSheet sheet = new("Count on the ring (count)", "Mean current (A)", 0, record.Start.Profile.Ring.Counts, 0, top);
        foreach (Port port in record.Start.Profile.Ports)
        {
            sheet.Place(port.Count, port.Name);
        }

        foreach ((double[] xs, double[] ys) in Unbroken(bins, record.Features!.Current.BinCounts))
        {
            sheet.Line(xs, ys, PlotColors.Data, LinePattern.Solid, 2);
        }

        if (spot is { } level)
        {
            sheet.Level(level, $"tight spot from {Quantity.Of(level, "A")}", PlotColors.Alert, LinePattern.Dashed);
        }

        (double Count, double MeanA) peak = bins.MaxBy(b => b.MeanA);
        return Figure.Of(
            Id,
            Title,
            sheet,
            $"Mean current from {Quantity.Of(bins.Min(b => b.MeanA), "A")} to {Quantity.Of(peak.MeanA, "A")}, "
            + $"greatest about count {Quantity.Fixed(peak.Count, 0)}. Dotted: ports "
            + string.Join(", ", record.Start.Profile.Ports.Select(p => $"{p.Name} at {Quantity.Fixed(p.Count, 0)}")) + ". "
            + (spot is { } at ? $"Dashed: {Quantity.Of(at, "A")}, from which a place away from the ports counts as a tight spot." : "No limit for a tight spot."));
    }

    /// <summary>Middle and mean current of every bin that has one.</summary>
    internal static (double Count, double MeanA)[] Bins(RunRecord record)
    {
        AngleProfile? profile = record.Features?.Current;
        return
        [
            .. (profile?.MeanA ?? []).Select((mean, bin) => (Count: profile!.FirstCount + ((bin + 0.5) * profile.BinCounts), Mean: mean))
                .Where(b => b.Mean is not null).Select(b => (b.Count, b.Mean!.Value)),
        ];
    }

    private static double? SpotLevel(RunRecord record) =>
        PositionErrorPlot.LimitOf(record, "current.tight_spot_ratio")?.Upper
        * record.Features?.Features.FirstOrDefault(f => f.Name == "current.running_a")?.Value;

    // An empty bin is a gap in the line, not a bridge over what nobody measured.
    internal static IEnumerable<(double[] Xs, double[] Ys)> Unbroken((double Count, double MeanA)[] bins, double width)
    {
        int first = 0;
        for (int i = 1; i <= bins.Length; i++)
        {
            if (i == bins.Length || bins[i].Count - bins[i - 1].Count > 1.5 * width)
            {
                yield return ([.. bins[first..i].Select(b => b.Count)], [.. bins[first..i].Select(b => b.MeanA)]);
                first = i;
            }
        }
    }
}
