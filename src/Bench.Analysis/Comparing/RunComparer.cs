using Bench.Analysis.Judging;
using Bench.Model.Comparisons;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Runs;

namespace Bench.Analysis.Comparing;

/// <summary>Holds two runs of one family against each other (docs/methods/comparison.md).</summary>
public static class RunComparer
{
    /// <summary>The comparison; its differences are B minus A.</summary>
    /// <param name="a">The run held against.</param>
    /// <param name="b">The run compared with it.</param>
    /// <exception cref="ArgumentException">The runs are of two families: their features mean different things.</exception>
    public static RunComparison Compare(SealedRun a, SealedRun b)
    {
        ArgumentNullException.ThrowIfNull(a);
        ArgumentNullException.ThrowIfNull(b);
        RunRecord ofA = a.Record, ofB = b.Record;
        if (ofA.Start.Profile.Family != ofB.Start.Profile.Family)
        {
            throw new ArgumentException($"{ofA.Start.Profile.Family} and {ofB.Start.Profile.Family} are two families", nameof(b));
        }

        bool sameUnit = a.Return.Serial == b.Return.Serial;
        CommonSources common = CommonSources.Of(ofA.Start, ofB.Start, sameUnit);
        IReadOnlyList<Finding> onA = FindingsOn(a, ofB), onB = ofB.Judgement?.Findings ?? [];
        IReadOnlyList<FeatureDifference> features = FeatureDifferences.Of(Features(ofA, onA), Features(ofB, onB), onA, onB, common);
        string? because = SensorComparison.Refusal(ofA, ofB);
        SensorChanges? sensors = because is null ? SensorComparison.Of(ofA.Features!.Ring, ofB.Features!.Ring) : null;
        return new RunComparison
        {
            A = a,
            B = b,
            SameUnit = sameUnit,
            SameCurrentMeter = common.CurrentMeter,
            SameVoltageMeter = common.VoltageMeter,
            Outcome = ofA.Features is null || ofB.Features is null ? ComparisonOutcome.NotAssessable : Outcome(features, sensors),
            Features = features,
            Sensors = sensors,
            SensorsBecause = because,
        };
    }

    // Under one profile's limits, or a changed limit would pass for a changed unit.
    private static IReadOnlyList<Finding> FindingsOn(SealedRun a, RunRecord b) =>
        a.Record.Features is not { } features || a.Record.Start.Profile.Sha256 == b.Start.Profile.Sha256
            ? a.Record.Judgement?.Findings ?? []
            : Judge.Decide(features, b.Start.Profile, a.Return).Findings;

    // What was looked at on arrival is judged without being a feature of the trace.
    private static IReadOnlyList<Feature> Features(RunRecord record, IReadOnlyList<Finding> findings) =>
    [
        .. record.Features?.Features ?? [],
        .. findings.Select(f => f.Feature).Where(f => record.Features?.Features.Any(known => known.Name == f.Name && known.Subject == f.Subject) != true),
    ];

    private static ComparisonOutcome Outcome(IReadOnlyList<FeatureDifference> features, SensorChanges? sensors)
    {
        FeatureDifference[] ofUnit = [.. features.Where(f => !FeatureCatalog.Get(f.Name).OfBench)];
        bool Stepped(int step) => ofUnit.Any(f => f.DecisionStep == step && f.Outcome is DifferenceOutcome.Differs or DifferenceOutcome.NotTested);
        bool worse = Stepped(-1) || sensors is { NewlyDead.Count: > 0 } or { NewlyWeak.Count: > 0 };
        bool better = Stepped(1) || sensors is { NewlySeen.Count: > 0 };
        return (worse, better) switch
        {
            (true, true) => ComparisonOutcome.Mixed,
            (true, false) => ComparisonOutcome.Worse,
            (false, true) => ComparisonOutcome.Better,
            _ => ofUnit.Any(f => f.Outcome == DifferenceOutcome.Differs) ? ComparisonOutcome.ChangedWithinLimits : ComparisonOutcome.NoDifferenceShown,
        };
    }
}
