using Bench.Model.Features;
using Bench.Model.Runs;

namespace Bench.Reporting.Plots;

/// <summary>Places and values of a current profile by angle.</summary>
internal static class AngleBins
{
    /// <summary>Middle and mean current of every bin that has one.</summary>
    public static (double Count, double MeanA)[] Of(RunRecord record)
    {
        AngleProfile? profile = record.Features?.Current;
        return
        [
            .. (profile?.MeanA ?? []).Select((mean, bin) => (Count: Middle(profile!, bin), Mean: mean))
                .Where(b => b.Mean is not null).Select(b => (b.Count, b.Mean!.Value)),
        ];
    }

    /// <summary>Count in the middle of a bin.</summary>
    public static double Middle(AngleProfile profile, int bin) => profile.FirstCount + ((bin + 0.5) * profile.BinCounts);

    /// <summary>Pieces without an empty bin between: a gap in the line, not a bridge over what nobody measured.</summary>
    /// <param name="bins">In order of their counts.</param>
    /// <param name="count">Count of one.</param>
    /// <param name="width">Counts from one bin to the next.</param>
    public static IEnumerable<T[]> Unbroken<T>(T[] bins, Func<T, double> count, double width)
    {
        int first = 0;
        for (int i = 1; i <= bins.Length; i++)
        {
            if (i == bins.Length || count(bins[i]) - count(bins[i - 1]) > 1.5 * width)
            {
                yield return bins[first..i];
                first = i;
            }
        }
    }
}
