using MathNet.Numerics;

namespace Bench.Analysis.Trends;

/// <summary>Mann-Kendall test for a monotonic trend, with tie correction (C4).</summary>
/// <param name="S">Rising pairs minus falling pairs.</param>
/// <param name="Variance">Variance of S when there is no trend.</param>
public readonly record struct MannKendall(long S, double Variance)
{
    private const int Stretch = 12;

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
        (long tied, double tieTerms) = Ties(sorted);
        long pairs = (long)values.Length * (values.Length - 1) / 2;
        return new MannKendall(pairs - tied - (2 * falling), (Term(values.Length) - tieTerms) / 18);
    }

    /// <summary>Σ t(t-1)(2t+5) over groups of t equal values.</summary>
    internal static double TieTerms(ReadOnlySpan<double> values)
    {
        double[] sorted = values.ToArray();
        Array.Sort(sorted);
        return Ties(sorted).Terms;
    }

    /// <summary>n(n-1)(2n+5).</summary>
    internal static double Term(double n) => n * (n - 1) * ((2 * n) + 5);

    // Pairs of equal values, and the term of each group of them.
    private static (long Pairs, double Terms) Ties(ReadOnlySpan<double> sorted)
    {
        long pairs = 0;
        double terms = 0;
        for (int i = 1, first = 0; i <= sorted.Length; i++)
        {
            if (i < sorted.Length && sorted[i] == sorted[first])
            {
                continue;
            }

            int t = i - first;
            if (t > 1)
            {
                pairs += (long)t * (t - 1) / 2;
                terms += Term(t);
            }

            first = i;
        }

        return (pairs, terms);
    }

    // Sorts by merging and counts the pairs whose later value is smaller (Knight 1966): short stretches by insertion, and
    // no merge where the halves are in order already, as in a course that rises.
    private static long Falling(Span<double> values, Span<double> spare)
    {
        if (values.Length <= Stretch)
        {
            return FallingInStretch(values);
        }

        int half = values.Length / 2;
        long falling = Falling(values[..half], spare[..half]) + Falling(values[half..], spare[half..]);
        if (values[half - 1] <= values[half])
        {
            return falling;
        }

        Span<double> early = spare[..half];
        values[..half].CopyTo(early);
        int left = 0;
        int right = half;
        int at = 0;
        while (left < half && right < values.Length)
        {
            // Without a branch: which half comes next is a coin's throw.
            double a = early[left];
            double b = values[right];
            int late = b < a ? 1 : 0;
            values[at++] = late == 1 ? b : a;
            falling += late * (half - left);
            right += late;
            left += 1 - late;
        }

        early[left..].CopyTo(values[at..]);
        return falling;
    }

    private static long FallingInStretch(Span<double> values)
    {
        long falling = 0;
        for (int i = 1; i < values.Length; i++)
        {
            double v = values[i];
            int j = i;
            for (; j > 0 && values[j - 1] > v; j--)
            {
                values[j] = values[j - 1];
            }

            values[j] = v;
            falling += i - j;
        }

        return falling;
    }
}
