namespace Bench.Analysis.Statistics;

/// <summary>Sums of products as if computed with twice the digits of a double and then rounded (Ogita, Rump and Oishi 2005, Dot2).</summary>
internal static class AccurateSum
{
    /// <summary>Σ a_i b_i + c + d.</summary>
    public static double OfProducts(ReadOnlySpan<double> a, ReadOnlySpan<double> b, double c, double d)
    {
        (double sum, double lost) = Two(c, d);
        for (int i = 0; i < a.Length; i++)
        {
            double product = a[i] * b[i];
            double roundedOff = Math.FusedMultiplyAdd(a[i], b[i], -product);
            (sum, double off) = Two(sum, product);
            lost += off + roundedOff;
        }

        return sum + lost;
    }

    // A sum and exactly what rounding took from it (Knuth).
    private static (double Sum, double Lost) Two(double x, double y)
    {
        double sum = x + y;
        double part = sum - x;
        return (sum, (x - (sum - part)) + (y - part));
    }
}
