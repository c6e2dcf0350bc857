namespace Bench.Analysis.Statistics;

/// <summary>
/// Mean, scatter and direction of values on a circle (Mardia and Jupp 2000). On a ring of 1000, 998, 0 and 2 have mean 0;
/// an ordinary mean says 333.
/// </summary>
/// <param name="N">Number of values.</param>
/// <param name="Period">Length of the circle: 360 for degrees, N for counts on a ring.</param>
/// <param name="Resultant">Mean resultant length, 0 (no direction at all) to 1 (all equal).</param>
/// <param name="Mean">Mean direction in [0, <paramref name="Period"/>); null when the values point nowhere in common.</param>
public readonly record struct CircularStatistics(int N, double Period, double Resultant, double? Mean)
{
    /// <summary>A resultant below this is rounding, so that the direction would be invented: N opposite values cancel to some 1e-16.</summary>
    private const double NoDirection = 1e-12;

    /// <summary>Circular variance, 1 minus <see cref="Resultant"/>, 0 to 1.</summary>
    public double Variance => 1 - Resultant;

    /// <summary>Circular standard deviation √(-2 ln R̄), in the unit of the values; null when the values point nowhere in common.</summary>
    public double? Deviation => Mean is null ? null : Math.Sqrt(Math.Max(0, -2 * Math.Log(Resultant))) * Period / (2 * Math.PI);

    /// <summary>
    /// p-value of "no direction is preferred" against one preferred direction (Rayleigh), by the approximation
    /// exp(√(1 + 4n + 4(n² - R²)) - (1 + 2n)), R = n R̄ (Wilkie 1983; Zar 1999). Within 0.001 of the exact one from 10 values on.
    /// </summary>
    public double RayleighProbability
    {
        get
        {
            double n = N;
            double r = n * Resultant;
            return Math.Min(1, Math.Exp(Math.Sqrt(1 + (4 * n) + (4 * ((n * n) - (r * r)))) - (1 + (2 * n))));
        }
    }

    /// <summary>The statistics of values.</summary>
    /// <param name="values">At least one, all finite; any turn of the circle.</param>
    /// <param name="period">Length of the circle, above 0.</param>
    /// <exception cref="ArgumentException">There is no value.</exception>
    public static CircularStatistics Of(ReadOnlySpan<double> values, double period)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(period);
        if (values.IsEmpty)
        {
            throw new ArgumentException("the direction of no values is not defined", nameof(values));
        }

        double sin = 0;
        double cos = 0;
        foreach (double v in values)
        {
            (double s, double c) = Math.SinCos(2 * Math.PI * v / period);
            sin += s;
            cos += c;
        }

        double resultant = Math.Min(1, Math.Sqrt((sin * sin) + (cos * cos)) / values.Length);
        if (resultant < NoDirection)
        {
            return new CircularStatistics(values.Length, period, resultant, null);
        }

        double turn = Math.Atan2(sin, cos) * period / (2 * Math.PI);
        double mean = turn < 0 ? turn + period : turn;
        return new CircularStatistics(values.Length, period, resultant, mean < period ? mean : 0);
    }
}
