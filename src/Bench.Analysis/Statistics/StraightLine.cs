using System.Buffers;
using System.Runtime.Intrinsics;

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
        Vector256<double> sxxs = Vector256<double>.Zero, sxys = sxxs, mxs = Vector256.Create(mx), mys = Vector256.Create(my);
        int i = 0;
        for (; i <= x.Length - 4; i += 4)
        {
            Vector256<double> dx = Vector256.Create(x.Slice(i, 4)) - mxs;
            sxxs += dx * dx;
            sxys += dx * (Vector256.Create(y.Slice(i, 4)) - mys);
        }

        double sxx = Vector256.Sum(sxxs);
        double sxy = Vector256.Sum(sxys);
        for (; i < x.Length; i++)
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
    /// <param name="mostInPairs">Points of which pairs are made, at least 2: of more, so many, spread evenly. What remains is of all.</param>
    /// <exception cref="ArgumentException">Fewer than two different x.</exception>
    public static StraightLine Robustly(ReadOnlySpan<double> x, ReadOnlySpan<double> y, int mostInPairs = int.MaxValue)
    {
        int n = Math.Min(x.Length, mostInPairs);
        double[] room = ArrayPool<double>.Shared.Rent(Math.Max(1, n * (n - 1) / 2) + (2 * n) + x.Length);
        Span<double> some = room.AsSpan(0, n), theirs = room.AsSpan(n, n), rest = room.AsSpan(2 * n, x.Length), slopes = room.AsSpan((2 * n) + x.Length);
        for (int k = 0; k < n; k++)
        {
            int i = n == x.Length ? k : (int)((long)k * (x.Length - 1) / (n - 1));
            (some[k], theirs[k]) = (x[i], y[i]);
        }

        int pairs = PairSlopes(some, theirs, slopes);
        if (pairs == 0)
        {
            ArrayPool<double>.Shared.Return(room);
            throw new ArgumentException("a line needs two different x", nameof(x));
        }

        double slope = Robust.Median(slopes[..pairs]);
        double centre = Describe.Mean(x);
        for (int i = 0; i < rest.Length; i++)
        {
            rest[i] = y[i] - (slope * (x[i] - centre));
        }

        double atCentre = Robust.Median(rest);
        ArrayPool<double>.Shared.Return(room);
        return new StraightLine(centre, atCentre, slope);
    }

    /// <summary>Slopes of all pairs of points with different x.</summary>
    /// <param name="x">Finite values.</param>
    /// <param name="y">As many.</param>
    /// <param name="slopes">Takes them; n(n-1)/2 at most.</param>
    /// <returns>How many there are.</returns>
    internal static int PairSlopes(ReadOnlySpan<double> x, ReadOnlySpan<double> y, Span<double> slopes)
    {
        int pairs = 0;
        for (int i = 0; i < x.Length; i++)
        {
            Vector256<double> xi = Vector256.Create(x[i]);
            Vector256<double> yi = Vector256.Create(y[i]);
            int j = i + 1;
            for (; j <= x.Length - 4; j += 4)
            {
                Vector256<double> dx = Vector256.Create(x.Slice(j, 4)) - xi;
                if (Vector256.EqualsAny(dx, Vector256<double>.Zero))
                {
                    pairs = PairSlopes(x, y, i, j, j + 4, slopes, pairs);
                    continue;
                }

                ((Vector256.Create(y.Slice(j, 4)) - yi) / dx).CopyTo(slopes[pairs..]);
                pairs += 4;
            }

            pairs = PairSlopes(x, y, i, j, x.Length, slopes, pairs);
        }

        return pairs;
    }

    private static int PairSlopes(
        ReadOnlySpan<double> x, ReadOnlySpan<double> y, int i, int from, int to, Span<double> slopes, int pairs)
    {
        for (int j = from; j < to; j++)
        {
            if (x[j] != x[i])
            {
                slopes[pairs++] = (y[j] - y[i]) / (x[j] - x[i]);
            }
        }

        return pairs;
    }
}
