namespace Bench.Analysis.Statistics;

/// <summary>
/// Many tests at once (Benjamini and Hochberg 1995): of all that is rejected, the expected share of false rejections is at
/// most alpha. For independent or positively dependent tests; milder than <see cref="Holm"/>, for screening.
/// </summary>
public static class BenjaminiHochberg
{
    /// <summary>Adjusted p-values: each is the least false discovery rate at which its hypothesis is rejected; at most 1.</summary>
    /// <param name="pValues">p-values, 0 to 1.</param>
    public static double[] Adjusted(ReadOnlySpan<double> pValues)
    {
        int[] order = Holm.Order(pValues);
        double[] adjusted = new double[order.Length];
        double least = 1;
        for (int i = order.Length - 1; i >= 0; i--)
        {
            least = Math.Min(least, pValues[order[i]] * order.Length / (i + 1));
            adjusted[order[i]] = least;
        }

        return adjusted;
    }
}
