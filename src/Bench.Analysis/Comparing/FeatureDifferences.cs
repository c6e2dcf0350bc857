using Bench.Analysis.Statistics;
using Bench.Analysis.Uncertainty;
using Bench.Model.Comparisons;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;

namespace Bench.Analysis.Comparing;

/// <summary>Every feature of two runs, each difference tested alone and all together.</summary>
internal static class FeatureDifferences
{
    /// <summary>Chance of any false alarm over all features: what |E_n| above 1 has for a single one, k = 2.</summary>
    public const double Alpha = 1 - Coverage.Share;

    /// <summary>The differences, worst first.</summary>
    /// <param name="a">Features of A.</param>
    /// <param name="b">Features of B.</param>
    /// <param name="ofA">Findings on A, under the limits both are held against.</param>
    /// <param name="ofB">Findings on B.</param>
    /// <param name="common">What both runs have in common.</param>
    public static IReadOnlyList<FeatureDifference> Of(
        IReadOnlyList<Feature> a, IReadOnlyList<Feature> b, IReadOnlyList<Finding> ofA, IReadOnlyList<Finding> ofB, CommonSources common)
    {
        FeatureDifference[] all = [.. Pairs(a, b).Select(p => Of(p.A, p.B, Find(ofA, p.A), Find(ofB, p.B), common))];
        int[] tested = [.. Enumerable.Range(0, all.Length).Where(i => all[i].P is not null)];
        double[] adjusted = Holm.Adjusted([.. tested.Select(i => all[i].P!.Value)]);
        for (int i = 0; i < tested.Length; i++)
        {
            FeatureDifference one = all[tested[i]];
            all[tested[i]] = one with { AdjustedP = adjusted[i], Outcome = Decide(one.P!.Value, adjusted[i]) };
        }

        return [.. all.OrderBy(Rank)];
    }

    /// <summary>Rank in telling: the least first.</summary>
    public static int Rank(FeatureDifference difference)
    {
        bool ofBench = FeatureCatalog.Get(difference.Name).OfBench;
        int step = difference.DecisionStep;
        int trend = difference.Trend == LimitTrend.TowardLimit ? 0 : difference.Trend == LimitTrend.AwayFromLimit ? 2 : 1;
        int rank = (difference.Outcome, step) switch
        {
            (_, -1) => 0,
            (DifferenceOutcome.Differs, 1) or (DifferenceOutcome.NotTested, 1) => 1,
            (DifferenceOutcome.Differs, _) => 2,
            (DifferenceOutcome.Doubtful, _) => 3,
            (DifferenceOutcome.NotAssessable, _) => difference.A?.IsAssessed == true || difference.B?.IsAssessed == true ? 4 : 8,
            (DifferenceOutcome.NotTested, _) => difference.Value == 0 ? 7 : 5,
            _ => 6,
        };
        return (ofBench ? 100 : 0) + (10 * rank) + trend;
    }

    // Some features name in their subject what they found; where there is one on each side, it is the same feature.
    private static IEnumerable<(Feature? A, Feature? B)> Pairs(IReadOnlyList<Feature> a, IReadOnlyList<Feature> b)
    {
        List<Feature> rest = [.. b];
        foreach (Feature one in a)
        {
            Feature? same = rest.Find(f => f.Name == one.Name && f.Subject == one.Subject)
                ?? (a.Count(f => f.Name == one.Name) == 1 && b.Count(f => f.Name == one.Name) == 1 ? rest.Find(f => f.Name == one.Name) : null);
            if (same is not null)
            {
                rest.Remove(same);
            }

            yield return (one, same);
        }

        foreach (Feature one in rest)
        {
            yield return (null, one);
        }
    }

    private static Finding? Find(IReadOnlyList<Finding> findings, Feature? feature) =>
        feature is null ? null : findings.FirstOrDefault(f => f.Feature.Name == feature.Name && f.Feature.Subject == feature.Subject);

    private static FeatureDifference Of(Feature? a, Feature? b, Finding? onA, Finding? onB, CommonSources common)
    {
        DifferenceTest test = CountedFeatures.TestOf((b ?? a)!);
        FeatureDifference begun = new()
        {
            A = a,
            B = b,
            Limit = (onB ?? onA)?.Limit,
            DecisionA = onA?.Decision,
            DecisionB = onB?.Decision,
            Test = test,
            Outcome = DifferenceOutcome.NotAssessable,
        };
        return Missing(a, b) is { } because
            ? begun with { Test = DifferenceTest.None, Because = because }
            : Tested(begun with { Value = b!.Value - a!.Value, Trend = Trend(begun.Limit, a.Value!.Value, b.Value!.Value) }, a, b, common);
    }

    private static FeatureDifference Tested(FeatureDifference begun, Feature a, Feature b, CommonSources common)
    {
        long Events(Feature f) => CountedFeatures.Events(f);
        switch (begun.Test)
        {
            // Given that nothing befell, no outcome could have differed: a test of nothing would only make the others blunter (Tarone 1990).
            case DifferenceTest.Share or DifferenceTest.Rate when Events(a) + Events(b) == 0:
                return begun with { Test = DifferenceTest.None, Outcome = DifferenceOutcome.NotTested, Because = "it befell in neither run" };
            case DifferenceTest.Share when Fits(a) && Fits(b):
                return begun with { P = TwoSamples.Fisher(Events(a), a.Observations, Events(b), b.Observations) };
            case DifferenceTest.Rate when a.Observations > 0 && b.Observations > 0:
                return begun with { P = TwoSamples.Rates(Events(a), a.Observations, Events(b), b.Observations) };
            case DifferenceTest.Measured when MeasuredDifference.Of(a, b, common) is { P: double p } measured:
                return begun with
                {
                    ExpandedUncertainty = measured.Expanded,
                    DegreesOfFreedom = measured.DegreesOfFreedom,
                    En = measured.En,
                    SharedSources = measured.Shared,
                    P = p,
                };
            default:
                return begun with
                {
                    Test = DifferenceTest.None,
                    Outcome = DifferenceOutcome.NotTested,
                    Because = "it has no uncertainty to be held against",
                };
        }
    }

    private static bool Fits(Feature share) => share.Observations > 0 && CountedFeatures.Events(share) <= share.Observations;

    private static string? Missing(Feature? a, Feature? b) => (a, b) switch
    {
        (null, _) => "A did not compute it",
        (_, null) => "B did not compute it",
        ({ IsAssessed: false }, { IsAssessed: false }) => $"not assessable in A, because {a.NotAssessableBecause}; nor in B, because {b.NotAssessableBecause}",
        ({ IsAssessed: false }, _) => $"not assessable in A, because {a.NotAssessableBecause}",
        (_, { IsAssessed: false }) => $"not assessable in B, because {b.NotAssessableBecause}",
        _ => null,
    };

    private static DifferenceOutcome Decide(double p, double adjusted) =>
        adjusted <= Alpha ? DifferenceOutcome.Differs
        : p <= Alpha ? DifferenceOutcome.Doubtful
        : DifferenceOutcome.NotShown;

    // By the room to the nearest limit; negative beyond it.
    private static LimitTrend Trend(Limit? limit, double a, double b)
    {
        if (limit is null || (limit.Lower is null && limit.Upper is null))
        {
            return LimitTrend.None;
        }

        double Room(double value) => Math.Min(value - (limit.Lower ?? double.NegativeInfinity), (limit.Upper ?? double.PositiveInfinity) - value);
        return Room(b).CompareTo(Room(a)) switch
        {
            < 0 => LimitTrend.TowardLimit,
            > 0 => LimitTrend.AwayFromLimit,
            _ => LimitTrend.None,
        };
    }
}
