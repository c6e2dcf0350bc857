using MathNet.Numerics.Distributions;
using MathNet.Numerics.Integration;
using MathNet.Numerics.LinearAlgebra;

namespace Bench.Analysis.Trends;

/// <summary>
/// Average run length of a <see cref="Cusum"/> on independent normal values of standard deviation 1: how many values until
/// it signals, whether there is cause (as few as can be) or none (as many).
/// </summary>
/// <remarks>
/// Page's integral equation L(s) = 1 + L(0) Φ(k - s - δ) + ∫₀ʰ L(x) φ(x + k - s - δ) dx, solved at Gauss-Legendre points (Nyström;
/// Crowder 1986).
/// </remarks>
public static class CusumRunLength
{
    private const int Points = 64;

    /// <summary>Of one of the two sums, begun at 0.</summary>
    /// <param name="k">Reference value, not negative.</param>
    /// <param name="h">Decision value, above 0.</param>
    /// <param name="shift">Mean of the values minus target, towards the side watched.</param>
    public static double OneSided(double k, double h, double shift)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(k);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(h);
        GaussLegendreRule rule = new(0, h, Points);
        double[] at = [0, .. rule.Abscissas];

        // Unknowns: L(0), then L at the points.
        Matrix<double> system = Matrix<double>.Build.Dense(at.Length, at.Length, (i, j) =>
        {
            double to = k - at[i] - shift;
            double share = j == 0 ? Normal.CDF(0, 1, to) : rule.Weights[j - 1] * Normal.PDF(0, 1, at[j] + to);
            return (i == j ? 1 : 0) - share;
        });
        return system.Solve(Vector<double>.Build.Dense(at.Length, 1))[0];
    }

    /// <summary>Of both sums together, each begun at 0: 1/L = 1/L↑ + 1/L↓ (van Dobben de Bruyn 1968), which holds as long as both can't stand high at once.</summary>
    /// <inheritdoc cref="OneSided" path="/param"/>
    public static double TwoSided(double k, double h, double shift) =>
        1 / ((1 / OneSided(k, h, shift)) + (1 / OneSided(k, h, -shift)));

    /// <summary>
    /// The decision value at which both sums together signal without cause once in so many values, from the closed form
    /// L = (exp(2kb) - 2kb - 1)/(2k²), b = h + 1.166, for one side (Siegmund 1985); within 6 % of the integral equation.
    /// </summary>
    /// <param name="k">Reference value, 0.25 to 1.</param>
    /// <param name="length">Average run length without a shift, 100 to 1e9.</param>
    public static double DecisionFor(double k, double length)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(k, 0.25);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(k, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(length, 100);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(length, 1e9);
        double low = 0, high = 60;
        while (high - low > 1e-6)
        {
            double middle = (low + high) / 2;
            double exponent = 2 * k * (middle + 1.166);
            (low, high) = (Math.Exp(exponent) - exponent - 1) / (2 * k * k) < 2 * length ? (middle, high) : (low, middle);
        }

        return high;
    }
}
