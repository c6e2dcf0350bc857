using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Reporting.Sections;
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
    /// <param name="record">The run.</param>
    /// <param name="reference">What healthy units showed; null when nobody looked.</param>
    public static Figure Draw(RunRecord record, CurrentReference? reference = null)
    {
        (double Count, double MeanA)[] bins = AngleBins.Of(record);
        if (bins.Length < 2)
        {
            return Figure.Omitted(Id, Title, "no current was read while the unit turned");
        }

        AngleProfile profile = record.Features!.Current;
        LimitLines limits = LimitLines.Of(record, "current.tight_spot_ratio");
        double? running = record.Features.Features.FirstOrDefault(f => f.Name == "current.running_a")?.Value;
        double? spot = limits.Limit?.Upper * running;
        double? guard = limits.Guard * running;
        double top = 1.35 * Math.Max(bins.Max(b => b.MeanA), Math.Max(spot ?? 0, record.Start.Profile.Electrical.RunningCurrentA));
        using PlotSheet sheet = new("Count on the ring (count)", "Mean current (A)", 0, record.Start.Profile.Ring.Counts, 0, top);
        (double Count, CurrentRange Range)[] band = Band(profile, reference);
        foreach ((double Count, CurrentRange Range)[] piece in AngleBins.Unbroken(band, b => b.Count, profile.BinCounts))
        {
            sheet.Area(
                [.. piece.Select(b => new Coordinates(b.Count, b.Range.HighA)), .. piece.Reverse().Select(b => new Coordinates(b.Count, b.Range.LowA))],
                PlotColors.Band,
                PlotColors.Data,
                0.5f);
        }

        if (band.Length > 0)
        {
            sheet.Note(sheet.X1, 0, $"shaded: {Healthy(reference!)}", PlotColors.Ink, Alignment.LowerRight);
        }

        foreach (Port port in record.Start.Profile.Ports)
        {
            sheet.Place(port.Count, port.Name);
        }

        foreach ((double Count, double MeanA)[] piece in AngleBins.Unbroken(bins, b => b.Count, profile.BinCounts))
        {
            sheet.Line([.. piece.Select(b => b.Count)], [.. piece.Select(b => b.MeanA)], PlotColors.Data, LinePattern.Solid, 2);
        }

        if (spot is { } level)
        {
            sheet.Hatch(level - (guard ?? 0), level);
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
            + (spot is { } at ? $"Dashed: {Quantity.Of(at, "A")}, from which a place away from the ports counts as a tight spot{(guard is { } u ? $"; hatched below it: the guard band, U = {Quantity.Rounded(u, "A")}" : string.Empty)}." : "No limit for a tight spot.")
            + Reference(profile, band, reference));
    }

    // A reference of another number of bins is one of another ring, and none.
    private static (double Count, CurrentRange Range)[] Band(AngleProfile profile, CurrentReference? reference) =>
        reference?.Bins.Count != profile.MeanA.Count
            ? []
            : [.. reference.Bins.Select((range, bin) => (Count: AngleBins.Middle(profile, bin), Range: range)).Where(b => b.Range is not null).Select(b => (b.Count, b.Range!.Value))];

    private static string Healthy(CurrentReference reference) =>
        $"{Quantity.Count(reference.Units, "healthy unit", "healthy units")}";

    private static string Day(DateTimeOffset time) => Moment.Of(DateOnly.FromDateTime(time.UtcDateTime));

    private static string Reference(AngleProfile profile, (double Count, CurrentRange Range)[] band, CurrentReference? reference)
    {
        if (reference is null)
        {
            return " No healthy units were looked for to compare it with.";
        }

        if (band.Length == 0)
        {
            return $" No band of healthy units to compare it with: the store has {Quantity.Number(reference.Units)} judged reusable by this profile, and it takes {Quantity.Number(reference.LeastUnits)}.";
        }

        int above = reference.Bins.Zip(profile.MeanA).Count(b => b.Second > b.First?.HighA);
        int below = reference.Bins.Zip(profile.MeanA).Count(b => b.Second < b.First?.LowA);
        return $" Shaded: where about {Quantity.Fixed(100 * reference.Share, 0)} % of healthy units lie, from {Healthy(reference)} judged reusable by this profile, "
            + $"tested {Day(reference.From!.Value)} to {Day(reference.To!.Value)}; it is no limit. Of {Quantity.Number(band.Length)} places {Quantity.Number(above)} lie above it, {Quantity.Number(below)} below.";
    }
}
