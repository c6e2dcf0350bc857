using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using MathNet.Numerics.Distributions;

namespace Bench.Analysis.Extraction;

/// <summary>A value outside its limit by less than its uncertainty that further moves are likely to decide (C12).</summary>
/// <param name="Feature">The value.</param>
/// <param name="Moves">Further moves after which it is as likely decided as not.</param>
public sealed record OpenDecision(Feature Feature, int Moves)
{
    /// <summary>Chance of a decision from which moves are worth making.</summary>
    private const double WorthIt = 0.5;

    /// <summary>Moves by which the look ahead grows.</summary>
    private const int Stride = 4;

    /// <summary>
    /// The first of a run's values that keeps a unit from a verdict and that moves can decide. Null when a fault is found
    /// already, or none is open, or what is open hangs on bench or type and not on the number of moves.
    /// </summary>
    /// <param name="features">Features of the run so far.</param>
    /// <param name="profile">The family.</param>
    /// <param name="made">Moves made, at least 1.</param>
    /// <param name="left">Moves that may still be made.</param>
    public static OpenDecision? In(IReadOnlyList<Feature> features, Profile profile, int made, int left)
    {
        OpenDecision? open = null;
        foreach (Limit limit in profile.Limits.Where(l => l.Severity is Severity.Repair or Severity.Scrap))
        {
            foreach (Feature feature in features.Where(f => f.Name == limit.Feature))
            {
                if (feature is not { Value: double value, StandardUncertainty: double u })
                {
                    continue;
                }

                FindingDecision decision = Conformity.Decide(value, u, limit.Lower, limit.Upper, limit.Rule, feature.CoverageFactor);
                if (decision == FindingDecision.DoesNotConform)
                {
                    return null;
                }

                // A value inside its limit keeps no unit.
                if (open is null && decision == FindingDecision.Undecided
                    && Conformity.Probability(value, u, limit.Lower, limit.Upper, feature.DegreesOfFreedom) < 0.5
                    && MovesFor(feature, limit, made, left) is int moves)
                {
                    open = new OpenDecision(feature, moves);
                }
            }
        }

        return open;
    }

    private static int? MovesFor(Feature feature, Limit limit, int made, int left)
    {
        for (int more = Math.Min(Stride, left); more > 0; more = more == left ? 0 : Math.Min(more + Stride, left))
        {
            if (ChanceAfter(feature, limit, (made + more) / (double)made) >= WorthIt)
            {
                return more;
            }
        }

        return null;
    }

    /// <summary>
    /// Chance that a value is decided once there are <paramref name="times"/> as many observations. What scatter makes
    /// uncertain falls, the rest stays; where the value will then lie is a normal distribution about where it lies now, of the
    /// variance that went (Raiffa and Schlaifer 1961, preposterior; from memory).
    /// </summary>
    /// <param name="feature">A value with its budget.</param>
    /// <param name="limit">Its limit.</param>
    /// <param name="times">At least 1.</param>
    public static double ChanceAfter(Feature feature, Limit limit, double times)
    {
        if (feature is not { Value: double value, StandardUncertainty: double now, Budget: { } budget })
        {
            return 0;
        }

        double then = Combination.StandardUncertainty([.. budget.Select(c => c with { Sensitivity = c.Sensitivity * Math.Pow(times, -c.FallsAsPower) })]);
        double moves = Math.Sqrt(Math.Max(0, (now * now) - (then * then)));
        if (moves <= 0)
        {
            return 0;
        }

        double guard = Feature.UsualCoverageFactor * then;
        double below = limit.Lower is double a ? Normal.CDF(value, moves, a - guard) : 0;
        double above = limit.Upper is double b ? 1 - Normal.CDF(value, moves, b + guard) : 0;
        double from = limit.Lower + guard ?? double.NegativeInfinity, to = limit.Upper - guard ?? double.PositiveInfinity;
        double inside = from < to ? Normal.CDF(value, moves, to) - Normal.CDF(value, moves, from) : 0;
        return below + above + inside;
    }
}
