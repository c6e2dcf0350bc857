using System.Globalization;

namespace Bench.Reporting.Comparison;

/// <summary>Counts of a ring in words: neighbours as a range.</summary>
internal static class CountRanges
{
    private const int Most = 8;

    /// <summary>The words, e.g. <c>counts 12, 317 to 322</c>; only the first ranges where there are many.</summary>
    /// <param name="counts">Counts, rising, at least one.</param>
    public static string Of(IReadOnlyList<int> counts)
    {
        List<(int First, int Last)> ranges = [];
        foreach (int count in counts)
        {
            if (ranges.Count > 0 && ranges[^1].Last == count - 1)
            {
                ranges[^1] = (ranges[^1].First, count);
            }
            else
            {
                ranges.Add((count, count));
            }
        }

        string words = string.Join(", ", ranges.Take(Most).Select(r => r.First == r.Last ? Number(r.First) : $"{Number(r.First)} to {Number(r.Last)}"));
        string rest = ranges.Count > Most ? $" and {Number(ranges.Count - Most)} more places" : string.Empty;
        return $"{(counts.Count == 1 ? "count" : "counts")} {words}{rest}";
    }

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);
}
