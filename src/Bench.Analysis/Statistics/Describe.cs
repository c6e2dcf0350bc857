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
        double sum = 0;
        foreach (double v in values)
        {
            sum += v;
        }

        double first = sum / values.Length;
        double rest = 0;
        foreach (double v in values)
        {
            rest += v - first;
        }

        return first + (rest / values.Length);
    }

    /// <summary>Sample standard deviation with divisor n - 1, in the unit of the values (corrected two-pass sum of squares).</summary>
    /// <param name="values">At least two values, all finite.</param>
    /// <exception cref="ArgumentException">There are fewer than two values.</exception>
    public static double StandardDeviation(ReadOnlySpan<double> values)
    {
        AtLeast(values.Length, 2);
        double mean = Mean(values);
        double squares = 0;
        double rest = 0;
        foreach (double v in values)
        {
            double d = v - mean;
            squares += d * d;
            rest += d;
        }

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

    private static void AtLeast(int n, int least)
    {
        if (n < least)
        {
            throw new ArgumentException($"{n} values; at least {least} are needed");
        }
    }
}
