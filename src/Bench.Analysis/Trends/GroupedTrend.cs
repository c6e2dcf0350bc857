using Bench.Analysis.Statistics;
using MathNet.Numerics;

namespace Bench.Analysis.Trends;

/// <summary>
/// Trend of values that come from several groups by turns, as seasons do: only values of one group are compared (Hirsch,
/// Slack and Smith 1982), so that ports that differ make no trend by the order in which they are visited.
/// </summary>
/// <param name="Slope">Median of the slopes of all pairs within a group, value per x.</param>
/// <param name="Lower">Lower end of its 95 % interval.</param>
/// <param name="Upper">Upper end of its 95 % interval.</param>
/// <param name="S">Rising pairs minus falling pairs within groups.</param>
/// <param name="Variance">Variance of S when there is no trend.</param>
/// <param name="Pairs">Pairs compared.</param>
public readonly record struct GroupedTrend(double Slope, double Lower, double Upper, long S, double Variance, long Pairs)
{
    private const double Quantile = 1.959963984540054;

    /// <summary>How monotonic the values are: 1 when all rise, -1 when all fall (Kendall's tau, ties counted as neither).</summary>
    public double Tau => (double)S / Pairs;

    /// <summary>Two-sided p-value of "no trend", normal with continuity correction; 1 when the variance is 0.</summary>
    /// <param name="inflation">Variance over that of independent values, at least 1; see <see cref="Dependence"/>.</param>
    public double ProbabilityAt(double inflation) =>
        Variance <= 0 ? 1 : SpecialFunctions.Erfc(Math.Max(0, Math.Abs(S) - 1) / Math.Sqrt(2 * Variance * inflation));

    /// <summary>The trend; null when no group has two values at different x.</summary>
    /// <param name="groups">Values of each group with their x, in order of x.</param>
    /// <param name="inflation">See <see cref="ProbabilityAt"/>; widens the interval.</param>
    public static GroupedTrend? Of(IEnumerable<(double X, double Y)[]> groups, double inflation = 1)
    {
        ArgumentNullException.ThrowIfNull(groups);
        List<double> slopes = [];
        long s = 0;
        double variance = 0;
        foreach ((double X, double Y)[] group in groups)
        {
            for (int i = 0; i < group.Length; i++)
            {
                for (int j = i + 1; j < group.Length; j++)
                {
                    if (group[j].X != group[i].X)
                    {
                        slopes.Add((group[j].Y - group[i].Y) / (group[j].X - group[i].X));
                    }
                }
            }

            MannKendall own = MannKendall.Of([.. group.Select(p => p.Y)]);
            s += own.S;
            variance += own.Variance;
        }

        if (slopes.Count == 0)
        {
            return null;
        }

        slopes.Sort();
        double half = Quantile * Math.Sqrt(Math.Max(variance, 0) * inflation);
        int low = Math.Max((int)Math.Round((slopes.Count - half) / 2) - 1, 0);
        int high = Math.Min((int)Math.Round((slopes.Count + half) / 2), slopes.Count - 1);
        return new GroupedTrend(Robust.Median([.. slopes]), slopes[low], slopes[high], s, variance, slopes.Count);
    }
}
