using System.Buffers;

namespace Bench.Analysis.Statistics;

/// <summary>Median and median absolute deviation.</summary>
public static class Robust
{
    /// <summary>Makes the median absolute deviation of normal data its standard deviation: 1/Φ⁻¹(3/4).</summary>
    public const double NormalScale = 1.482602218505602;

    /// <summary>Standard deviation of the median over that of the mean for normal data, √(π/2).</summary>
    public const double MedianPenalty = 1.2533141373155003;

    /// <summary>Median; the mean of the two middle values when their number is even.</summary>
    /// <param name="values">At least one value, all finite; left as they are.</param>
    /// <exception cref="ArgumentException">There is no value.</exception>
    public static double Median(ReadOnlySpan<double> values)
    {
        if (values.IsEmpty)
        {
            throw new ArgumentException("the median of no values is not defined", nameof(values));
        }

        return OrderStatistics.Median(values);
    }

    /// <summary>Median absolute deviation from the median times <see cref="NormalScale"/>: a standard deviation that outliers do not move.</summary>
    /// <param name="values">At least one value, all finite.</param>
    /// <exception cref="ArgumentException">There is no value.</exception>
    public static double Deviation(ReadOnlySpan<double> values)
    {
        double[] rented = ArrayPool<double>.Shared.Rent(values.Length);
        double deviation = Deviation(values, rented.AsSpan(0, values.Length));
        ArrayPool<double>.Shared.Return(rented);
        return deviation;
    }

    /// <summary>The same where distances from the median may be written; room may be the values themselves, which are lost then.</summary>
    internal static double Deviation(ReadOnlySpan<double> values, Span<double> room)
    {
        Elementwise.Distances(values, Median(values), room);
        return NormalScale * OrderStatistics.Median(room);
    }
}
