using Bench.Analysis.Statistics;
using MathNet.Numerics.Distributions;

namespace Bench.Analysis.Trends;

/// <summary>Median of pairwise slopes with its distribution-free interval (Theil 1950, Sen 1968; C4).</summary>
/// <param name="Slope">y per x.</param>
/// <param name="Lower">Lower end of the interval.</param>
/// <param name="Upper">Upper end of the interval.</param>
/// <param name="Points">Number of points.</param>
public readonly record struct TheilSen(double Slope, double Lower, double Upper, int Points)
{
    /// <summary>A slope's uncertainty falls with the number n of evenly spaced points as n^-3/2: of them √n, of the length they span n.</summary>
    public const double FallsAsPower = 1.5;

    /// <summary>The slope of y over x.</summary>
    /// <param name="x">At least three values, not all equal.</param>
    /// <param name="y">As many.</param>
    /// <param name="confidence">Two-sided confidence of the interval, inside (0, 1).</param>
    /// <exception cref="ArgumentException">Too few points.</exception>
    public static TheilSen Of(ReadOnlySpan<double> x, ReadOnlySpan<double> y, double confidence = 0.95)
    {
        double[] slopes = new double[x.Length * (x.Length - 1) / 2];
        int pairs = StraightLine.PairSlopes(x, y, slopes);
        if (x.Length < 3 || pairs == 0)
        {
            throw new ArgumentException("a slope with an interval needs three points at different x", nameof(x));
        }

        double variance = (MannKendall.Term(x.Length) - MannKendall.TieTerms(x) - MannKendall.TieTerms(y)) / 18;
        double half = Normal.InvCDF(0, 1, (1 + confidence) / 2) * Math.Sqrt(Math.Max(variance, 0));
        int low = Math.Max((int)Math.Round((pairs - half) / 2) - 1, 0);
        int high = Math.Min((int)Math.Round((pairs + half) / 2), pairs - 1);
        ReadOnlySpan<double> all = slopes.AsSpan(0, pairs);
        double lower = OrderStatistics.At(all, low);
        double upper = OrderStatistics.At(all, high);
        return new TheilSen(OrderStatistics.Median(all), lower, upper, x.Length);
    }
}
