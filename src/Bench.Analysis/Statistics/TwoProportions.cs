using MathNet.Numerics;

namespace Bench.Analysis.Statistics;

/// <summary>Whether one share is greater than another (pooled normal test, no continuity correction; z² is Pearson's chi-square).</summary>
public static class TwoProportions
{
    /// <summary>z of the difference k1/n1 - k2/n2; 0 when neither or every trial was an event.</summary>
    public static double Z(long k1, long n1, long k2, long n2)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(n1);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(n2);
        double pooled = (double)(k1 + k2) / (n1 + n2);
        double variance = pooled * (1 - pooled) * ((1.0 / n1) + (1.0 / n2));
        return variance > 0 ? (((double)k1 / n1) - ((double)k2 / n2)) / Math.Sqrt(variance) : 0;
    }

    /// <summary>One-sided p-value of "the first share is no greater than the second".</summary>
    public static double FirstGreater(long k1, long n1, long k2, long n2) =>
        0.5 * SpecialFunctions.Erfc(Z(k1, n1, k2, n2) / Constants.Sqrt2);
}
