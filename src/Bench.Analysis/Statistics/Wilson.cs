using MathNet.Numerics.Distributions;

namespace Bench.Analysis.Statistics;

/// <summary>
/// Score interval of a share (Wilson 1927), no continuity correction. Its coverage is right on average where that of
/// <see cref="BinomialLimits"/> is never too small: for rates in a population, not for what a unit must prove.
/// </summary>
public static class Wilson
{
    /// <summary>The two-sided interval.</summary>
    /// <param name="k">Events, 0 to <paramref name="n"/>.</param>
    /// <param name="n">Trials, at least 1.</param>
    /// <param name="confidence">Confidence, inside (0, 1).</param>
    public static (double Lower, double Upper) Interval(int k, int n, double confidence)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(k);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(n);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(k, n);
        double z = Normal.InvCDF(0, 1, (1 + confidence) / 2);
        double share = (double)k / n;
        double spread = z * z / n;
        double centre = share + (spread / 2);
        double half = z * Math.Sqrt((share * (1 - share) / n) + (spread / (4 * n)));
        return (k == 0 ? 0 : (centre - half) / (1 + spread), k == n ? 1 : (centre + half) / (1 + spread));
    }
}
