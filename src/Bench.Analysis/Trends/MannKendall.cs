using MathNet.Numerics;

namespace Bench.Analysis.Trends;

/// <summary>Mann-Kendall test for a monotonic trend, with tie correction (C4).</summary>
/// <param name="S">Rising pairs minus falling pairs.</param>
/// <param name="Variance">Variance of S when there is no trend.</param>
public readonly record struct MannKendall(long S, double Variance)
{
    /// <summary>Normal score with continuity correction; 0 when S or the variance is 0.</summary>
    public double Z => Variance <= 0 || S == 0 ? 0 : (S - Math.Sign(S)) / Math.Sqrt(Variance);

    /// <summary>Two-sided p-value of <see cref="Z"/>.</summary>
    public double Probability => SpecialFunctions.Erfc(Math.Abs(Z) / Constants.Sqrt2);

    /// <summary>The test on values in order of time.</summary>
    /// <param name="values">At least two values.</param>
    public static MannKendall Of(ReadOnlySpan<double> values)
    {
        double[] sorted = values.ToArray();
        long falling = Falling(sorted, new double[sorted.Length]);
        long tied = 0;
        double tieTerms = 0;
        foreach (int t in Ties(sorted))
        {
            tied += (long)t * (t - 1) / 2;
            tieTerms += Term(t);
        }

        long pairs = (long)values.Length * (values.Length - 1) / 2;
        return new MannKendall(pairs - tied - (2 * falling), (Term(values.Length) - tieTerms) / 18);
    }

    /// <summary>Σ t(t-1)(2t+5) over groups of t equal values.</summary>
    internal static double TieTerms(ReadOnlySpan<double> values)
    {
        double[] sorted = values.ToArray();
        Array.Sort(sorted);
        return Ties(sorted).Sum(t => Term(t));
    }

    /// <summary>n(n-1)(2n+5).</summary>
    internal static double Term(double n) => n * (n - 1) * ((2 * n) + 5);

    private static List<int> Ties(double[] sorted)
    {
        List<int> sizes = [];
        for (int i = 0; i < sorted.Length;)
        {
            int j = i;
            while (j < sorted.Length && sorted[j] == sorted[i])
            {
                j++;
            }

            sizes.Add(j - i);
            i = j;
        }

        return sizes;
    }

    // Sorts by merging and counts the pairs whose later value is smaller (Knight 1966).
    private static long Falling(Span<double> values, Span<double> spare)
    {
        if (values.Length < 2)
        {
            return 0;
        }

        int half = values.Length / 2;
        long falling = Falling(values[..half], spare[..half]) + Falling(values[half..], spare[half..]);
        values.CopyTo(spare);
        int left = 0;
        int right = half;
        for (int i = 0; i < values.Length; i++)
        {
            if (right == values.Length || (left < half && spare[left] <= spare[right]))
            {
                values[i] = spare[left++];
            }
            else
            {
                values[i] = spare[right++];
                falling += half - left;
            }
        }

        return falling;
    }
}
