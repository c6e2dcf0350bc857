using System.Runtime.Intrinsics;

namespace Bench.Analysis.Statistics;

/// <summary>Mean, standard deviation and autocorrelation.</summary>
public static class Describe
{
    /// <summary>Arithmetic mean, any unit; two passes, so that a large common offset costs no digits.</summary>
    /// <param name="values">At least one value, all finite.</param>
    /// <exception cref="ArgumentException">There is no value.</exception>
    public static double Mean(ReadOnlySpan<double> values)
    {
        AtLeast(values.Length, 1);
        double first = Sums(values, 0).Off / values.Length;
        return first + (Sums(values, first).Off / values.Length);
    }

    /// <summary>Sample standard deviation with divisor n - 1, in the unit of the values (corrected two-pass sum of squares).</summary>
    /// <param name="values">At least two values, all finite.</param>
    /// <exception cref="ArgumentException">There are fewer than two values.</exception>
    public static double StandardDeviation(ReadOnlySpan<double> values)
    {
        AtLeast(values.Length, 2);
        (double rest, double squares) = Sums(values, Mean(values));
        return Math.Sqrt((squares - (rest * rest / values.Length)) / (values.Length - 1));
    }

    /// <summary>
    /// Lag-1 autocorrelation r(1) = Σ d_i d_(i+1) / Σ d_i², d the deviations from the mean: 1 where neighbours are alike,
    /// about 0 where they know nothing of each other. Null when all values are equal.
    /// </summary>
    /// <param name="values">At least two values, all finite.</param>
    /// <exception cref="ArgumentException">There are fewer than two values.</exception>
    public static double? Autocorrelation(ReadOnlySpan<double> values)
    {
        AtLeast(values.Length, 2);
        double mean = Mean(values);
        double squares = 0;
        double products = 0;
        for (int i = 0; i < values.Length; i++)
        {
            double d = values[i] - mean;
            squares += d * d;
            products += i + 1 < values.Length ? d * (values[i + 1] - mean) : 0;
        }

        return squares > 0 ? products / squares : null;
    }

    // Sums of v - centre and of its square in four lanes, whatever the processor has, so that every machine adds in one order.
    private static (double Off, double Squares) Sums(ReadOnlySpan<double> values, double centre)
    {
        Vector256<double> about = Vector256.Create(centre);
        Vector256<double> offs = Vector256<double>.Zero;
        Vector256<double> squares = Vector256<double>.Zero;
        int i = 0;
        for (; i <= values.Length - 4; i += 4)
        {
            Vector256<double> d = Vector256.Create(values.Slice(i, 4)) - about;
            offs += d;
            squares += d * d;
        }

        double off = Vector256.Sum(offs);
        double square = Vector256.Sum(squares);
        for (; i < values.Length; i++)
        {
            double d = values[i] - centre;
            off += d;
            square += d * d;
        }

        return (off, square);
    }

    private static void AtLeast(int n, int least)
    {
        if (n < least)
        {
            throw new ArgumentException($"{n} values; at least {least} are needed");
        }
    }
}
