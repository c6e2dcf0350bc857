using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace Bench.Analysis.Uncertainty;

/// <summary>A value with uncertainty against limits (JCGM 106:2012): the one place where this program compares the two (C12).</summary>
public static class Conformity
{
    /// <summary>Probability that the true value lies within the limits, value and standard uncertainty being all that is known (JCGM 106, 7).</summary>
    /// <param name="value">Finite value.</param>
    /// <param name="uncertainty">Standard uncertainty, finite, not negative.</param>
    /// <param name="lower">Lower limit, null for none.</param>
    /// <param name="upper">Upper limit, null for none.</param>
    /// <param name="degreesOfFreedom">Effective degrees of freedom of the uncertainty, at least 1: Student's distribution instead of the normal one; null for infinite.</param>
    /// <exception cref="ArgumentException">A number is not finite, or the uncertainty is negative.</exception>
    public static double Probability(double value, double uncertainty, double? lower, double? upper, double? degreesOfFreedom = null)
    {
        Refuse(value, uncertainty, lower, upper);
        if (uncertainty == 0)
        {
            return (lower is null || value >= lower) && (upper is null || value <= upper) ? 1 : 0;
        }

        double below = lower is null ? 0 : Below((lower.Value - value) / uncertainty, degreesOfFreedom);
        double above = upper is null ? 0 : Below((value - upper.Value) / uncertainty, degreesOfFreedom);
        return Math.Clamp(1 - below - above, 0, 1);
    }

    /// <summary>The decision under a rule.</summary>
    /// <param name="value">Finite value.</param>
    /// <param name="uncertainty">Standard uncertainty, finite, not negative.</param>
    /// <param name="lower">Lower limit, null for none.</param>
    /// <param name="upper">Upper limit, null for none.</param>
    /// <param name="rule">Simple acceptance, or guard bands of U both ways.</param>
    /// <param name="coverageFactor">Coverage factor k of the expanded uncertainty (<see cref="Coverage.Factor"/>); null for 2.</param>
    /// <exception cref="ArgumentException">A number is not finite, or the uncertainty is negative.</exception>
    public static FindingDecision Decide(
        double value, double uncertainty, double? lower, double? upper, DecisionRule rule, double? coverageFactor = null)
    {
        Refuse(value, uncertainty, lower, upper);

        // JCGM 106, 8.3; the band is U, as in ILAC-G8:09/2019: whoever accepts or rejects outside it is wrong in at most
        // 2.3 % of cases, one side of the distribution.
        double guard = rule == DecisionRule.Guarded ? uncertainty * (coverageFactor ?? Feature.UsualCoverageFactor) : 0;
        if ((lower is double a && value < a - guard) || (upper is double b && value > b + guard))
        {
            return FindingDecision.DoesNotConform;
        }

        return (lower is double c && value < c + guard) || (upper is double d && value > d - guard)
            ? FindingDecision.Undecided
            : FindingDecision.Conforms;
    }

    private static double Below(double z, double? degreesOfFreedom) => degreesOfFreedom is double v
        ? StudentT.CDF(0, 1, v, z)
        : 0.5 * SpecialFunctions.Erfc(-z / Constants.Sqrt2);

    private static void Refuse(double value, double uncertainty, double? lower, double? upper)
    {
        if (!double.IsFinite(value) || !double.IsFinite(uncertainty) || uncertainty < 0
            || lower is { } l && !double.IsFinite(l) || upper is { } u && !double.IsFinite(u))
        {
            throw new ArgumentException(
                $"a value, its uncertainty and its limits must be finite numbers; found {value} with {uncertainty} against {lower} to {upper}");
        }
    }
}
