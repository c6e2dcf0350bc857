namespace Bench.Analysis.Statistics;

/// <summary>Many tests at once (Holm 1979): the chance of any false rejection is at most alpha, whatever the dependence.</summary>
public static class Holm
{
    /// <summary>Which hypotheses are rejected: the i-th smallest p-value against alpha/(m - i + 1), until the first that is not below.</summary>
    /// <param name="pValues">p-values, 0 to 1.</param>
    /// <param name="alpha">Chance of any false rejection, inside (0, 1).</param>
    public static bool[] Rejected(ReadOnlySpan<double> pValues, double alpha)
    {
        int[] order = new int[pValues.Length];
        double[] keys = pValues.ToArray();
        for (int i = 0; i < order.Length; i++)
        {
            order[i] = i;
        }

        Array.Sort(keys, order);
        bool[] rejected = new bool[order.Length];
        for (int i = 0; i < order.Length && keys[i] <= alpha / (order.Length - i); i++)
        {
            rejected[order[i]] = true;
        }

        return rejected;
    }
}
