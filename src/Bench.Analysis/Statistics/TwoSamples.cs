using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace Bench.Analysis.Statistics;

/// <summary>Exact two-sided tests of counted events in two samples: never too small a p-value, however few the events.</summary>
public static class TwoSamples
{
    /// <summary>Outcomes as likely as the one seen, to rounding, count among the less likely ones (as in R's fisher.test and binom.test).</summary>
    private const double Tie = 1 + 1e-7;

    /// <summary>
    /// Fisher's exact test (Fisher 1935): p-value of "both samples have one share", the probability of all tables with the
    /// margins seen that are no likelier than the one seen.
    /// </summary>
    /// <param name="k1">Events in the first sample, 0 to <paramref name="n1"/>.</param>
    /// <param name="n1">Trials in the first sample, at least 0.</param>
    /// <param name="k2">Events in the second sample, 0 to <paramref name="n2"/>.</param>
    /// <param name="n2">Trials in the second sample, at least 0.</param>
    /// <returns>The p-value; 1 where no table differs.</returns>
    public static double Fisher(long k1, long n1, long k2, long n2)
    {
        CheckShare(k1, n1);
        CheckShare(k2, n2);
        long events = k1 + k2;
        double Log(long k) => LogChoose(n1, k) + LogChoose(n2, events - k) - LogChoose(n1 + n2, events);
        return NoLikelier(k1, Math.Max(0, events - n2), Math.Min(events, n1), Log);
    }

    /// <summary>
    /// p-value of "both samples have one rate of events" (Przyborowski and Wilenski 1940): given the events of both, those of
    /// the first are binomial with the share that its exposure has.
    /// </summary>
    /// <param name="k1">Events in the first sample.</param>
    /// <param name="exposure1">How long, or how often, the first was watched; above 0.</param>
    /// <param name="k2">Events in the second sample.</param>
    /// <param name="exposure2">The same of the second.</param>
    public static double Rates(long k1, double exposure1, long k2, double exposure2)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(k1);
        ArgumentOutOfRangeException.ThrowIfNegative(k2);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(exposure1);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(exposure2);
        long events = k1 + k2;
        double share = exposure1 / (exposure1 + exposure2);
        double Log(long k) => LogChoose(events, k) + (k * Math.Log(share)) + ((events - k) * Math.Log(1 - share));
        return NoLikelier(k1, 0, events, Log);
    }

    /// <summary>Two-sided p-value of a value divided by its standard uncertainty.</summary>
    /// <param name="ratio">Value over standard uncertainty.</param>
    /// <param name="degreesOfFreedom">Degrees of freedom of the uncertainty, above 0; null for infinite.</param>
    public static double Student(double ratio, double? degreesOfFreedom) => degreesOfFreedom is double v
        ? 2 * StudentT.CDF(0, 1, v, -Math.Abs(ratio))
        : SpecialFunctions.Erfc(Math.Abs(ratio) / Constants.Sqrt2);

    private static double NoLikelier(long seen, long least, long most, Func<long, double> log)
    {
        double bound = log(seen) + Math.Log(Tie);
        double sum = 0;
        for (long k = least; k <= most; k++)
        {
            double at = log(k);
            sum += at <= bound ? Math.Exp(at) : 0;
        }

        return Math.Min(1, sum);
    }

    private static double LogChoose(long n, long k) =>
        SpecialFunctions.GammaLn(n + 1.0) - SpecialFunctions.GammaLn(k + 1.0) - SpecialFunctions.GammaLn(n - k + 1.0);

    private static void CheckShare(long k, long n)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(k);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(k, n);
    }
}
