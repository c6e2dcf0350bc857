using Bench.Analysis.Statistics;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;

namespace Bench.Analysis.Comparing;

/// <summary>
/// Difference of two measured values with its uncertainty. A source that both have in common enters once, with the
/// difference of what it does to each (JCGM 100:2008, 5.2.2, equation 16 with correlation 1); all else is independent.
/// </summary>
/// <param name="Value">B minus A.</param>
/// <param name="Expanded">Expanded uncertainty U, about 95 %; 0 when neither value has an uncertainty.</param>
/// <param name="DegreesOfFreedom">Effective degrees of freedom; null for infinite.</param>
/// <param name="P">Two-sided p-value of "no difference"; null when U is 0.</param>
/// <param name="Shared">Names of the sources in common.</param>
internal sealed record MeasuredDifference(double Value, double Expanded, double? DegreesOfFreedom, double? P, IReadOnlyList<string> Shared)
{
    /// <summary>E_n = difference / U (ISO 13528:2015, 9.7); null when U is 0.</summary>
    public double? En => Expanded > 0 ? Value / Expanded : null;

    /// <summary>The difference of two values.</summary>
    /// <param name="a">One value, assessed.</param>
    /// <param name="b">The other, assessed.</param>
    /// <param name="common">What both runs have in common.</param>
    public static MeasuredDifference Of(Feature a, Feature b, CommonSources common)
    {
        IReadOnlyList<Contribution> ofA = Budget(a), ofB = Budget(b);
        List<Contribution> parts = [];
        List<string> shared = [];
        foreach (Contribution source in ofB.Where(common.Holds))
        {
            if (ofA.FirstOrDefault(c => c.Source == source.Source) is { } same)
            {
                shared.Add(source.Source);
                double inFeature = (source.Sensitivity * source.StandardUncertainty) - (same.Sensitivity * same.StandardUncertainty);
                parts.Add(source with { StandardUncertainty = Math.Abs(inFeature), Sensitivity = 1 });
            }
        }

        parts.AddRange(ofA.Concat(ofB).Where(c => !shared.Contains(c.Source)));
        double value = b.Value!.Value - a.Value!.Value;
        double u = Combination.StandardUncertainty(parts);
        if (!(u > 0))
        {
            return new(value, 0, null, null, shared);
        }

        double? freedom = Combination.DegreesOfFreedom(parts) is double v ? Math.Max(1, v) : null;
        double k = freedom is double few ? Coverage.Factor(few) : Feature.UsualCoverageFactor;
        return new(value, k * u, freedom, TwoSamples.Student(value / u, freedom), shared);
    }

    // A record of before budgets were kept says only what they combined to.
    private static IReadOnlyList<Contribution> Budget(Feature feature) => feature.Budget
        ?? [new Contribution("not told apart", EvaluationType.B, ErrorDistribution.Normal, feature.StandardUncertainty ?? 0) { DegreesOfFreedom = feature.DegreesOfFreedom }];
}
