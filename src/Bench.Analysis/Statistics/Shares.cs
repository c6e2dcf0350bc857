namespace Bench.Analysis.Statistics;

/// <summary>Uncertainty of a share of counted events.</summary>
public static class Shares
{
    /// <summary>
    /// Standard deviation of the share given k of n (posterior under a uniform prior, Beta(k + 1, n - k + 1)), so that
    /// none out of a few is not taken for certainty.
    /// </summary>
    /// <param name="k">Events, 0 to <paramref name="n"/>.</param>
    /// <param name="n">Trials, at least 0.</param>
    public static double Uncertainty(long k, long n)
    {
        double mean = (k + 1.0) / (n + 2.0);
        return Math.Sqrt(mean * (1 - mean) / (n + 3.0));
    }
}
