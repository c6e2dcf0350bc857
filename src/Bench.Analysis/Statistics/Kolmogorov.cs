namespace Bench.Analysis.Statistics;

/// <summary>Kolmogorov's distribution: of the greatest distance of a Brownian bridge from 0, which tests for a change of level share.</summary>
public static class Kolmogorov
{
    /// <summary>From here on the series of the tail converges faster than that of the lower part.</summary>
    private const double Seam = 1.0;

    /// <summary>P(K &gt; x), 0 to 1: 2 Σ (-1)^(j-1) exp(-2 j² x²), and below 1 by the theta form, whose terms fall as fast there.</summary>
    /// <param name="x">Distance, not negative.</param>
    public static double Tail(double x)
    {
        if (!(x > 0))
        {
            return 1;
        }

        double sum = 0;
        if (x >= Seam)
        {
            for (int j = 1; j <= 8; j++)
            {
                sum += (j % 2 == 1 ? 2 : -2) * Math.Exp(-2.0 * j * j * x * x);
            }

            return Math.Clamp(sum, 0, 1);
        }

        for (int j = 1; j <= 15; j += 2)
        {
            sum += Math.Exp(-j * j * Math.PI * Math.PI / (8 * x * x));
        }

        return Math.Clamp(1 - (Math.Sqrt(2 * Math.PI) / x * sum), 0, 1);
    }
}
