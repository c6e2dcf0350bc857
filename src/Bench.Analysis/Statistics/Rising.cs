namespace Bench.Analysis.Statistics;

/// <summary>Places in values that rise.</summary>
internal static class Rising
{
    /// <summary>Index of the first value not below a mark; their number when all are.</summary>
    public static int FirstFrom(ReadOnlySpan<double> rising, double mark)
    {
        int low = 0;
        int high = rising.Length;
        while (low < high)
        {
            int middle = low + ((high - low) / 2);
            (low, high) = rising[middle] < mark ? (middle + 1, high) : (low, middle);
        }

        return low;
    }

    /// <summary>Index of the first value above a mark; their number when none is.</summary>
    public static int FirstAfter(ReadOnlySpan<double> rising, double mark)
    {
        int low = 0;
        int high = rising.Length;
        while (low < high)
        {
            int middle = low + ((high - low) / 2);
            (low, high) = rising[middle] <= mark ? (middle + 1, high) : (low, middle);
        }

        return low;
    }
}
