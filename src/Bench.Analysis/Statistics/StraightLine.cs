namespace Bench.Analysis.Statistics;

/// <summary>A straight line y = <paramref name="AtCentre"/> + <paramref name="Slope"/> (x - <paramref name="Centre"/>).</summary>
/// <param name="Centre">The x the line is anchored at.</param>
/// <param name="AtCentre">y there.</param>
/// <param name="Slope">y per x.</param>
public readonly record struct StraightLine(double Centre, double AtCentre, double Slope)
{
    /// <summary>y at an x.</summary>
    public double At(double x) => AtCentre + (Slope * (x - Centre));

    /// <summary>Least squares through points.</summary>
    /// <param name="x">At least two different values.</param>
    /// <param name="y">As many.</param>
    /// <exception cref="ArgumentException">Fewer than two different x.</exception>
    public static StraightLine LeastSquares(ReadOnlySpan<double> x, ReadOnlySpan<double> y)
    {
        double mx = Describe.Mean(x);
        double my = Describe.Mean(y);
        double sxx = 0;
        double sxy = 0;
        for (int i = 0; i < x.Length; i++)
        {
            sxx += (x[i] - mx) * (x[i] - mx);
            sxy += (x[i] - mx) * (y[i] - my);
        }

        return sxx > 0
            ? new StraightLine(mx, my, sxy / sxx)
            : throw new ArgumentException("a line needs two different x", nameof(x));
    }

    /// <summary>
    /// Median of pairwise slopes, and the median of what remains (Theil 1950, Sen 1968): up to a quarter of the points
    /// may be anything. For small sets; the pairs are n(n-1)/2.
    /// </summary>
    /// <param name="x">At least two different values.</param>
    /// <param name="y">As many.</param>
    /// <exception cref="ArgumentException">Fewer than two different x.</exception>
    public static StraightLine Robustly(ReadOnlySpan<double> x, ReadOnlySpan<double> y)
    {
        List<double> slopes = [];
        for (int i = 0; i < x.Length; i++)
        {
            for (int j = i + 1; j < x.Length; j++)
            {
                if (x[j] != x[i])
                {
                    slopes.Add((y[j] - y[i]) / (x[j] - x[i]));
                }
            }
        }

        if (slopes.Count == 0)
        {
            throw new ArgumentException("a line needs two different x", nameof(x));
        }

        double slope = Robust.Median(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(slopes));
        double centre = Describe.Mean(x);
        double[] rest = new double[x.Length];
        for (int i = 0; i < rest.Length; i++)
        {
            rest[i] = y[i] - (slope * (x[i] - centre));
        }

        return new StraightLine(centre, Robust.Median(rest), slope);
    }
}
