namespace Bench.Reporting.Plots;

/// <summary>Thins a long series to what a plot can show without losing its extremes.</summary>
internal static class Decimation
{
    /// <summary>Columns of a plot in which least and greatest value are kept.</summary>
    public const int Columns = 400;

    /// <summary>
    /// The series itself when it has at most four points per column, else first, least, greatest and last point of
    /// each column in order, so that neither a spike nor a dropout is lost and lines join as before.
    /// </summary>
    /// <param name="xs">Rising.</param>
    /// <param name="ys">Finite, as many as <paramref name="xs"/>.</param>
    public static (double[] Xs, double[] Ys) Thin(IReadOnlyList<double> xs, IReadOnlyList<double> ys)
    {
        if (xs.Count <= 4 * Columns)
        {
            return ([.. xs], [.. ys]);
        }

        double span = xs[^1] - xs[0];
        List<double> keptX = [];
        List<double> keptY = [];
        for (int first = 0; first < xs.Count;)
        {
            int column = Column(xs[first]);
            int last = first;
            int least = first;
            int greatest = first;
            while (last + 1 < xs.Count && Column(xs[last + 1]) == column)
            {
                last++;
                least = ys[last] < ys[least] ? last : least;
                greatest = ys[last] > ys[greatest] ? last : greatest;
            }

            foreach (int index in new SortedSet<int> { first, least, greatest, last })
            {
                keptX.Add(xs[index]);
                keptY.Add(ys[index]);
            }

            first = last + 1;
        }

        return ([.. keptX], [.. keptY]);

        int Column(double x) => Math.Min(Columns - 1, (int)((x - xs[0]) / span * Columns));
    }
}
