namespace Bench.Analysis.Statistics;

/// <summary>Many tests at once (Holm 1979): the chance of any false rejection is at most alpha, whatever the dependence.</summary>
public static class Holm
{
    /// <summary>Adjusted p-values: each is the least alpha at which its hypothesis is rejected; at most 1.</summary>
    /// <param name="pValues">p-values, 0 to 1.</param>
    public static double[] Adjusted(ReadOnlySpan<double> pValues)
    {
        int[] order = Order(pValues);
        double[] adjusted = new double[order.Length];
        double greatest = 0;
        for (int i = 0; i < order.Length; i++)
        {
            greatest = Math.Max(greatest, Math.Min(1, (order.Length - i) * pValues[order[i]]));
            adjusted[order[i]] = greatest;
        }

        return adjusted;
    }

    /// <summary>Which hypotheses are rejected: the i-th smallest p-value against alpha/(m - i + 1), until the first that is not below.</summary>
    /// <param name="pValues">p-values, 0 to 1.</param>
    /// <param name="alpha">Chance of any false rejection, inside (0, 1).</param>
    public static bool[] Rejected(ReadOnlySpan<double> pValues, double alpha)
    {
        int[] order = Order(pValues);
        bool[] rejected = new bool[order.Length];
        for (int i = 0; i < order.Length && pValues[order[i]] <= alpha / (order.Length - i); i++)
        {
            rejected[order[i]] = true;
        }

        return rejected;
    }

    /// <summary>Places of the values from the smallest to the greatest.</summary>
    internal static int[] Order(ReadOnlySpan<double> pValues)
    {
        int[] order = new int[pValues.Length];
        for (int i = 0; i < order.Length; i++)
        {
            order[i] = i;
        }

        Array.Sort(pValues.ToArray(), order);
        return order;
    }
}
