using Bench.Analysis.Statistics;

namespace Bench.Analysis.Trends;

/// <summary>
/// How much less neighbouring values tell than independent ones: a course that wanders shows trends and steps by itself.
/// </summary>
public static class Dependence
{
    /// <summary>One-sided normal quantile beyond which an autocorrelation is taken for real, 5 %.</summary>
    private const double Quantile = 1.6448536269514722;

    /// <summary>Least values for an autocorrelation to be of use.</summary>
    private const int Least = 8;

    /// <summary>
    /// Factor on the variance of a mean or rank sum, (1 + r)/(1 - r), of a series in which each value depends on the one
    /// before with r (Bayley and Hammersley 1946); r is the lag-1 autocorrelation of what a trend or step leaves over, and
    /// counts only where it is greater than 1.645/√n, and is corrected for its bias, E r = ρ - (1 + 4ρ)/n (Kendall 1954). At least 1.
    /// </summary>
    /// <param name="residuals">Values without their trend or step, in order of time.</param>
    public static double Inflation(ReadOnlySpan<double> residuals)
    {
        if (residuals.Length < Least || Describe.Autocorrelation(residuals) is not double r
            || !(r > Quantile / Math.Sqrt(residuals.Length)))
        {
            return 1;
        }

        double unbiased = ((residuals.Length * r) + 1) / (residuals.Length - 4);
        double bounded = Math.Min(unbiased, 0.95);
        return (1 + bounded) / (1 - bounded);
    }
}
