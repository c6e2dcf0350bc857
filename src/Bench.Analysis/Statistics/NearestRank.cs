namespace Bench.Analysis.Statistics;

/// <summary>Percentiles by nearest rank: always a value that was there.</summary>
public static class NearestRank
{
    /// <summary>The least value that a share of all values does not exceed; null of no values.</summary>
    /// <param name="values">Any number of finite values; left as they are.</param>
    /// <param name="share">Share, above 0 and at most 1.</param>
    public static double? Of(ReadOnlySpan<double> values, double share)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(share);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(share, 1);
        return values.IsEmpty ? null : OrderStatistics.At(values, Place(values.Length, share));
    }

    /// <summary>Its rank from 0.</summary>
    internal static int Place(int count, double share) => Math.Max(1, (int)Math.Ceiling(share * count)) - 1;
}
