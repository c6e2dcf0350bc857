using MathNet.Numerics;
using MathNet.Numerics.Integration;

namespace Bench.Analysis.Uncertainty;

/// <summary>
/// How often a limit is wrong over a population of units (JCGM 106:2012, 9.5): true values normal about a mean, a
/// measurement normal about the true value. What an engineer weighs when setting a limit; a single unit's finding is
/// <see cref="Conformity"/>'s.
/// </summary>
/// <param name="Consumer">R_C: chance that a unit is outside the limits and accepted.</param>
/// <param name="Producer">R_P: chance that a unit is within the limits and rejected.</param>
/// <param name="Conforming">Share of the population within the limits.</param>
/// <param name="Accepted">Share of the population accepted.</param>
public sealed record GlobalRisk(double Consumer, double Producer, double Conforming, double Accepted)
{
    // Pieces of the population integrated one by one: the chance of acceptance is a step as wide as the measurement.
    private const int Pieces = 64;
    private const double Reach = 10;
    private static readonly GaussLegendreRule Rule = new(0, 1, 16);

    /// <summary>The risks.</summary>
    /// <param name="mean">Mean of the population.</param>
    /// <param name="spread">Its standard deviation, above 0.</param>
    /// <param name="uncertainty">Standard uncertainty of the measurement, above 0.</param>
    /// <param name="lower">Lower limit.</param>
    /// <param name="upper">Upper limit, above <paramref name="lower"/>.</param>
    /// <param name="guard">Guard band within both limits; negative widens what is accepted.</param>
    public static GlobalRisk Of(double mean, double spread, double uncertainty, double lower, double upper, double guard)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(spread);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(uncertainty);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(upper, lower);
        double Density(double y) => Math.Exp(-0.5 * Square((y - mean) / spread)) / (spread * Constants.Sqrt2Pi);
        double Accept(double y) => Below((upper - guard - y) / uncertainty) - Below((lower + guard - y) / uncertainty);
        double least = mean - (Reach * spread), most = mean + (Reach * spread);
        double a = Math.Clamp(lower, least, most), b = Math.Clamp(upper, least, most);
        double within = Below((upper - mean) / spread) - Below((lower - mean) / spread);
        double right = Integral(y => Density(y) * Accept(y), a, b);
        double wrong = Integral(y => Density(y) * Accept(y), least, a) + Integral(y => Density(y) * Accept(y), b, most);
        return new GlobalRisk(wrong, within - right, within, right + wrong);
    }

    private static double Integral(Func<double, double> f, double from, double to)
    {
        double step = (to - from) / Pieces;
        double sum = 0;
        for (int i = 0; i < Pieces; i++)
        {
            for (int j = 0; j < Rule.Order; j++)
            {
                sum += step * Rule.GetWeight(j) * f(from + (step * (i + Rule.GetAbscissa(j))));
            }
        }

        return sum;
    }

    private static double Below(double z) => 0.5 * SpecialFunctions.Erfc(-z / Constants.Sqrt2);

    private static double Square(double x) => x * x;
}
