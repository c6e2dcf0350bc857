using Bench.Analysis.Statistics;

namespace Bench.Analysis.Trends;

/// <summary>Pettitt's test for one change of level at an unknown place (Pettitt 1979; C4). By ranks, so that scatter may have any shape.</summary>
/// <param name="N">Number of values.</param>
/// <param name="K">Greatest |U_k|, U_k = 2 Σ r_i - k(n + 1) over the first k ranks r_i.</param>
/// <param name="Before">Number of values before the likeliest change: the first k with |U_k| = K.</param>
public readonly record struct Pettitt(int N, double K, int Before)
{
    /// <summary>
    /// p-value: K √(3/(n³ + n²)) in Kolmogorov's distribution. Its first term is Pettitt's own 2 exp(-6K²/(n³ + n²)); the
    /// further terms keep it below 1. Ties and few values make it too great: cautious.
    /// </summary>
    public double Probability => ProbabilityAt(1);

    /// <summary>The p-value when neighbouring values depend on each other, so that the variance of U is greater.</summary>
    /// <param name="inflation">Variance over that of independent values, at least 1; see <see cref="Dependence"/>.</param>
    public double ProbabilityAt(double inflation)
    {
        double n = N;
        return Kolmogorov.Tail(K * Math.Sqrt(3 / (((n * n * n) + (n * n)) * inflation)));
    }

    /// <summary>The test on values in order of time.</summary>
    /// <param name="values">At least two values, all finite.</param>
    /// <exception cref="ArgumentException">There are fewer than two values.</exception>
    public static Pettitt Of(ReadOnlySpan<double> values)
    {
        int n = values.Length;
        if (n < 2)
        {
            throw new ArgumentException($"{n} values; a change needs at least 2", nameof(values));
        }

        double[] ranks = Ranks(values);
        double u = 0;
        double greatest = -1;
        int before = 0;
        for (int k = 1; k < n; k++)
        {
            u += (2 * ranks[k - 1]) - (n + 1);
            if (Math.Abs(u) > greatest)
            {
                greatest = Math.Abs(u);
                before = k;
            }
        }

        return new Pettitt(n, greatest, before);
    }

    // Ranks from 1; equal values share the mean of theirs.
    private static double[] Ranks(ReadOnlySpan<double> values)
    {
        double[] sorted = values.ToArray();
        int[] order = [.. Enumerable.Range(0, sorted.Length)];
        Array.Sort(sorted, order);
        double[] ranks = new double[sorted.Length];
        for (int i = 0; i < sorted.Length;)
        {
            int j = i;
            while (j < sorted.Length && sorted[j] == sorted[i])
            {
                j++;
            }

            for (int k = i; k < j; k++)
            {
                ranks[order[k]] = (i + j + 1) / 2.0;
            }

            i = j;
        }

        return ranks;
    }
}
