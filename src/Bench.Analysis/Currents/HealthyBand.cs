using Bench.Model.Features;

namespace Bench.Analysis.Currents;

/// <summary>The band in which current by angle of healthy units lies (C7).</summary>
/// <remarks>
/// From the k-th least to the k-th greatest of n units at each place, k = ⌈0.05 n⌉: free of any distribution, and expected
/// to hold (n + 1 - 2k)/(n + 1) of all units there are (Wilks 1941: coverage between order statistics).
/// </remarks>
public static class HealthyBand
{
    /// <summary>Units it takes: of ten the band is expected to hold 82 % of all.</summary>
    public const int LeastUnits = 10;

    /// <summary>Units that are enough: newer ones say more about the bench as it is.</summary>
    public const int EnoughUnits = 40;

    private const double Tail = 0.05;

    /// <summary>The band.</summary>
    /// <param name="units">One test of each unit, all judged by one profile; those whose bins lie otherwise than the first's are left out.</param>
    public static CurrentReference Of(IReadOnlyList<HealthyCurrent> units)
    {
        ArgumentNullException.ThrowIfNull(units);
        HealthyCurrent[] alike = [.. units.Where(u => u.Profile.MeanA.Count == units[0].Profile.MeanA.Count && u.Profile.FirstCount == units[0].Profile.FirstCount)];
        int tail = Cut(alike.Length);
        return new CurrentReference
        {
            Units = alike.Length,
            LeastUnits = LeastUnits,
            Share = alike.Length == 0 ? 0 : (double)Math.Max(0, alike.Length + 1 - (2 * tail)) / (alike.Length + 1),
            From = alike.Length == 0 ? null : alike.Min(u => u.TestedAt),
            To = alike.Length == 0 ? null : alike.Max(u => u.TestedAt),
            Bins = alike.Length < LeastUnits ? [] : [.. alike[0].Profile.MeanA.Select((_, bin) => At(alike, bin))],
        };
    }

    private static CurrentRange? At(HealthyCurrent[] units, int bin)
    {
        double[] values = [.. units.Select(u => u.Profile.MeanA[bin]).OfType<double>().Order()];
        int tail = Cut(values.Length);
        return values.Length < LeastUnits ? null : new CurrentRange(values[tail - 1], values[^tail]);
    }

    private static int Cut(int units) => (int)Math.Ceiling(Tail * units);
}
