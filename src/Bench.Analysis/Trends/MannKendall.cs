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
        long s = 0;
        for (int i = 0; i < values.Length; i++)
        {
            for (int j = i + 1; j < values.Length; j++)
            {
                s += Math.Sign(values[j] - values[i]);
            }
        }

        return new MannKendall(s, (Term(values.Length) - TieTerms(values)) / 18);
    }

    /// <summary>Σ t(t-1)(2t+5) over groups of t equal values.</summary>
    internal static double TieTerms(ReadOnlySpan<double> values)
    {
        double[] sorted = values.ToArray();
        Array.Sort(sorted);
        double sum = 0;
        for (int i = 0; i < sorted.Length;)
        {
            int j = i;
            while (j < sorted.Length && sorted[j] == sorted[i])
            {
                j++;
            }

            sum += Term(j - i);
            i = j;
        }

        return sum;
    }

    /// <summary>n(n-1)(2n+5).</summary>
    internal static double Term(double n) => n * (n - 1) * ((2 * n) + 5);
}
