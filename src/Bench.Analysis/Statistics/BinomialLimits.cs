using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace Bench.Analysis.Statistics;

/// <summary>Exact statements on a share from counted events.</summary>
public static class BinomialLimits
{
    /// <summary>P(K ≤ k) of a binomial K, through the regularised incomplete beta function, which also carries on between whole numbers.</summary>
    /// <param name="k">Events, at least 0.</param>
    /// <param name="n">Trials, above 0 and at least <paramref name="k"/>.</param>
    /// <param name="p">Probability of an event in one trial, 0 to 1.</param>
    public static double LowerTail(double k, double n, double p)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(k);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(n);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(k, n);
        return k >= n || p <= 0 ? 1 : p >= 1 ? 0 : SpecialFunctions.BetaRegularized(n - k, k + 1, 1 - p);
    }

    /// <summary>One-sided upper limit of the share (Clopper and Pearson 1934): the p at which k events or fewer have probability 1 - confidence.</summary>
    /// <param name="k">Events, at least 0.</param>
    /// <param name="n">Trials, at least 1.</param>
    /// <param name="confidence">Confidence, inside (0, 1). For a two-sided interval at C give (1 + C)/2.</param>
    public static double Upper(int k, int n, double confidence)
    {
        Check(k, n);
        return k == n ? 1 : k == 0 ? -double.ExpM1(Math.Log(1 - confidence) / n) : Quantile(k + 1, n - k, confidence);
    }

    /// <summary>One-sided lower limit of the share, see <see cref="Upper"/>.</summary>
    /// <param name="k">Events, at least 0.</param>
    /// <param name="n">Trials, at least 1.</param>
    /// <param name="confidence">Confidence, inside (0, 1).</param>
    public static double Lower(int k, int n, double confidence)
    {
        Check(k, n);
        return k == 0 ? 0 : k == n ? Math.Exp(Math.Log(1 - confidence) / n) : Quantile(k, n - k + 1, 1 - confidence);
    }

    // The library's root is good to an absolute 1e-12, few digits of a small share; Newton's steps give it those of the beta function.
    private static double Quantile(double a, double b, double p)
    {
        double x = Beta.InvCDF(a, b, p);
        for (int i = 0; i < 3; i++)
        {
            double slope = Beta.PDF(a, b, x);
            double next = x - ((SpecialFunctions.BetaRegularized(a, b, x) - p) / slope);
            if (!(next > 0 && next < 1))
            {
                break;
            }

            x = next;
        }

        return x;
    }

    private static void Check(int k, int n)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(k);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(n);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(k, n);
    }
}
