using System.Runtime.Intrinsics;

namespace Bench.Analysis.Statistics;

/// <summary>Mean, standard deviation and autocorrelation.</summary>
public static class Describe
{
    private const int Lanes = 16;

    /// <summary>Arithmetic mean, any unit; two passes, so that a large common offset costs no digits.</summary>
    /// <param name="values">At least one value, all finite.</param>
    /// <exception cref="ArgumentException">There is no value.</exception>
    public static double Mean(ReadOnlySpan<double> values)
    {
        AtLeast(values.Length, 1);
        double first = Sum(values) / values.Length;
        return first + (Sums(values, first).Off / values.Length);
    }

    /// <summary>Sample standard deviation with divisor n - 1, in the unit of the values (corrected two-pass sum of squares).</summary>
    /// <param name="values">At least two values, all finite.</param>
    /// <exception cref="ArgumentException">There are fewer than two values.</exception>
    public static double StandardDeviation(ReadOnlySpan<double> values) => MeanAndDeviation(values).Deviation;

    /// <summary>Both of them, in two passes: the second, about the mean of the first, corrects the mean and gives the squares.</summary>
    /// <param name="values">At least two values, all finite.</param>
    /// <exception cref="ArgumentException">There are fewer than two values.</exception>
    public static (double Mean, double Deviation) MeanAndDeviation(ReadOnlySpan<double> values)
    {
        AtLeast(values.Length, 2);
        double first = Sum(values) / values.Length;
        (double off, double squares) = Sums(values, first);
        double variance = (squares - (off * off / values.Length)) / (values.Length - 1);
        return (first + (off / values.Length), Math.Sqrt(Math.Max(variance, 0)));
    }

    /// <summary>The greatest value.</summary>
    /// <param name="values">At least one value, all finite.</param>
    /// <exception cref="ArgumentException">There is no value.</exception>
    public static double Greatest(ReadOnlySpan<double> values)
    {
        AtLeast(values.Length, 1);
        Vector256<double> four = Vector256.Create(double.NegativeInfinity);
        int i = 0;
        for (; i <= values.Length - 4; i += 4)
        {
            four = Vector256.MaxNative(four, Vector256.Create(values.Slice(i, 4)));
        }

        double greatest = Math.Max(Math.Max(four[0], four[1]), Math.Max(four[2], four[3]));
        for (; i < values.Length; i++)
        {
            greatest = Math.Max(greatest, values[i]);
        }

        return greatest + 0.0; // which makes a negative zero, as good a maximum to the processor, a plain one
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

    // Sums in sixteen lanes, whatever the processor has, so that every machine adds in one order.
    private static double Sum(ReadOnlySpan<double> values)
    {
        Vector256<double> a = Vector256<double>.Zero, b = a, c = a, d = a;
        int i = 0;
        for (; i <= values.Length - Lanes; i += Lanes)
        {
            ReadOnlySpan<double> block = values.Slice(i, Lanes);
            a += Vector256.Create(block);
            b += Vector256.Create(block[4..]);
            c += Vector256.Create(block[8..]);
            d += Vector256.Create(block[12..]);
        }

        double sum = Vector256.Sum(a + b + (c + d));
        for (; i < values.Length; i++)
        {
            sum += values[i];
        }

        return sum;
    }

    /// <summary>Sums of value - centre and of its square.</summary>
    internal static (double Off, double Squares) Sums(ReadOnlySpan<double> values, double centre)
    {
        Vector256<double> about = Vector256.Create(centre);
        Vector256<double> offA = Vector256<double>.Zero, offB = offA, offC = offA, offD = offA;
        Vector256<double> squareA = offA, squareB = offA, squareC = offA, squareD = offA;
        int i = 0;
        for (; i <= values.Length - Lanes; i += Lanes)
        {
            ReadOnlySpan<double> block = values.Slice(i, Lanes);
            Vector256<double> a = Vector256.Create(block) - about;
            Vector256<double> b = Vector256.Create(block[4..]) - about;
            Vector256<double> c = Vector256.Create(block[8..]) - about;
            Vector256<double> d = Vector256.Create(block[12..]) - about;
            offA += a;
            offB += b;
            offC += c;
            offD += d;
            squareA += a * a;
            squareB += b * b;
            squareC += c * c;
            squareD += d * d;
        }

        double off = Vector256.Sum(offA + offB + (offC + offD));
        double square = Vector256.Sum(squareA + squareB + (squareC + squareD));
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
