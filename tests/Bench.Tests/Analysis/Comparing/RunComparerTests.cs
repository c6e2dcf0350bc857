using Bench.Analysis.Comparing;
using Bench.Analysis.Judging;
using Bench.Model.Comparisons;
using Bench.Model.Entries;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Tests.Reporting;
using CsCheck;

namespace Bench.Tests.Analysis.Comparing;

/// <summary>Two runs held against each other.</summary>
public sealed class RunComparerTests
{
    private const string Running = "current.running_a";

    [Theory]
    [InlineData("healthy")]
    [InlineData("dead-sensors")]
    [InlineData("held")]
    public void Compare_ARunWithItself_ShowsNoDifference(string name)
    {
        SealedRun run = EvidencePacketTests.Sample(name).Run;
        RunComparison same = RunComparer.Compare(run, run);
        Assert.Equal(ComparisonOutcome.NoDifferenceShown, same.Outcome);
        Assert.True(same.SameUnit && same.SameProfile && same.SameCurrentMeter && same.SameVoltageMeter);
        Assert.All(same.Features.Where(f => f.Value is not null), f =>
        {
            Assert.Equal(0, f.Value);
            Assert.True(f.Outcome is DifferenceOutcome.NotShown or DifferenceOutcome.NotTested);
            Assert.Equal(f.DecisionA, f.DecisionB);
        });
        Assert.Empty(same.Sensors!.NewlyDead.Concat(same.Sensors.NewlyWeak).Concat(same.Sensors.NewlySeen));
    }

    [Fact]
    public void Compare_Swapped_TurnsEverySignAndKeepsEveryProbability()
    {
        SealedRun a = SampleRun.Healthy().Run, b = SampleRun.DeadSensors().Run;
        RunComparison there = RunComparer.Compare(a, b), back = RunComparer.Compare(b, a);
        Assert.Equal((ComparisonOutcome.Worse, ComparisonOutcome.Better), (there.Outcome, back.Outcome));
        Assert.Equal(there.Features.Count, back.Features.Count);
        foreach (FeatureDifference f in there.Features)
        {
            FeatureDifference g = back.Features.Single(x => x.Name == f.Name && x.Subject == f.Subject);
            Assert.Equal(-f.Value, g.Value);
            Assert.Equal(-f.En, g.En);
            Assert.Equal((f.P, f.AdjustedP, f.ExpandedUncertainty, f.Outcome), (g.P, g.AdjustedP, g.ExpandedUncertainty, g.Outcome));
            Assert.Equal(-f.DecisionStep, g.DecisionStep);
        }

        Assert.Equal(there.Sensors!.NewlyDead.Concat(there.Sensors.NewlyWeak).Order(), back.Sensors!.NewlySeen);
    }

    [Fact]
    public void Compare_SensorsDied_SaysWhichAndThatTheUnitIsWorse()
    {
        RunComparison comparison = RunComparer.Compare(SampleRun.Healthy().Run, SampleRun.DeadSensors().Run);
        Assert.Equal(Enumerable.Range(317, 6), comparison.Sensors!.NewlyDead);
        Assert.Equal(Enumerable.Range(640, 10), comparison.Sensors.NewlyWeak);
        Assert.Equal(["ring.dead_counts", "ring.weak_counts"], comparison.Features.Take(2).Select(f => f.Name).Order());
        Assert.All(comparison.Features.Take(2), f => Assert.Equal(-1, f.DecisionStep));
    }

    // NIST, Dataplot reference manual, "ISO 13528 EN SCORE": GEAR.DAT, reference 1, U twice the deviation of all (0.0062789)
    // and of the first batch (0.0043461); it prints 0.393 for 1.006 and -0.262 for 0.996.
    [Theory]
    [InlineData(1.006, 0.393)]
    [InlineData(0.996, -0.262)]
    public void Compare_IndependentValues_GivesTheEnThatIsPublished(double value, double expected)
    {
        FeatureDifference found = Difference(Feature.Of(Running, 1, 0.0062789, 100), Feature.Of(Running, value, 0.0043461, 10));
        Assert.Equal(expected, found.En!.Value, 5e-4);
    }

    [Fact]
    public void Compare_OneMeterForBoth_LeavesItsErrorOutOfTheDifference()
    {
        Feature a = Metered(0.20, 0.003), b = Metered(0.22, 0.004);
        FeatureDifference same = Difference(a, b), other = Difference(a, b, bench => bench with { Name = "depot-3" });
        Assert.Equal(["current meter"], same.SharedSources);
        Assert.Equal(2 * 0.005, same.ExpandedUncertainty!.Value, 1e-12);
        Assert.Empty(other.SharedSources);
        Assert.Equal(2 * Math.Sqrt(0.005 * 0.005 + (2 * 0.02 * 0.02)), other.ExpandedUncertainty!.Value, 1e-12);
        Assert.True(same.P < other.P);
    }

    [Fact]
    public void Compare_MeterCalibratedBetween_IsAnotherMeter() =>
        Assert.Empty(Difference(Metered(0.20, 0.003), Metered(0.22, 0.004), bench => bench with { Current = bench.Current with { Certificate = "C-3300" } }).SharedSources);

    [Fact]
    public void Compare_OneMeterWithTwoSensitivities_LeavesTheirDifference()
    {
        FeatureDifference found = Difference(Metered(10, 0.1, sensitivity: 4, meter: 0.5), Metered(12, 0.1, sensitivity: 5, meter: 0.5));
        Assert.Equal(2 * Math.Sqrt((0.5 * 0.5) + (2 * 0.01)), found.ExpandedUncertainty!.Value, 1e-12);
    }

    [Fact]
    public void Compare_AnyTwoValues_IsMoreThanItsUncertaintyExactlyWhenEnIsBeyondOne() =>
        Gen.Select(Gen.Double[-3, 3], Gen.Double[0.01, 1], Gen.Double[0.01, 1]).Sample((value, u, v) =>
        {
            FeatureDifference f = Difference(Feature.Of(Running, 0, u, 9), Feature.Of(Running, value, v, 9));
            Assert.Equal(Math.Abs(f.En!.Value) > 1, f.P < 1 - 0.9544997361036416);
            Assert.Equal(f.Outcome == DifferenceOutcome.NotShown, Math.Abs(f.En.Value) < 1);
        });

    [Fact]
    public void Compare_ManyFeatures_AsksMoreOfEach()
    {
        // One of forty and more at p = 0.01: alone a difference, among them none (Holm: the least p times their number).
        Feature[] a = [.. Enumerable.Range(0, 40).Select(i => Feature.Of("landing.error_counts", 0, 1, 9, $"port {i}"))];
        Feature[] b = [.. a.Select((f, i) => f with { Value = i == 7 ? 2.576 * Math.Sqrt(2) : 0 })];
        RunComparison comparison = RunComparer.Compare(With(SampleRun.Healthy().Run, a), With(SampleRun.Healthy().Run, b));
        FeatureDifference odd = comparison.Features.Single(f => f.Subject == "port 7");
        Assert.Equal(0.01, odd.P!.Value, 1e-4);
        Assert.True(comparison.Tested >= 40);
        Assert.Equal(comparison.Tested * odd.P.Value, odd.AdjustedP!.Value, 1e-9);
        Assert.Equal(DifferenceOutcome.Doubtful, odd.Outcome);
    }

    [Fact]
    public void Compare_FailedMoves_ByFishersExactTest()
    {
        FeatureDifference f = Difference(Feature.Of("demonstration.failed_moves", 0, 0, 38), Feature.Of("demonstration.failed_moves", 2, 0, 52));
        Assert.Equal(DifferenceTest.Share, f.Test);
        Assert.Equal(0.506616729089, f.P!.Value, 1e-9);
        Assert.Equal(DifferenceOutcome.NotShown, f.Outcome);
    }

    [Fact]
    public void Compare_NothingBefellInEither_IsNoTest()
    {
        FeatureDifference f = Difference(Feature.Of("current.interruptions", 0, 0, 38), Feature.Of("current.interruptions", 0, 0, 52));
        Assert.Null(f.P);
        Assert.Equal(DifferenceOutcome.NotTested, f.Outcome);
    }

    [Fact]
    public void Compare_NotAssessableOnOneSide_SaysWhereAndWhy()
    {
        FeatureDifference f = Difference(Feature.Of(Running, 0.2, 0.01, 9), Feature.Missing(Running, "the unit never turned"));
        Assert.Equal(DifferenceOutcome.NotAssessable, f.Outcome);
        Assert.Equal("not assessable in B, because the unit never turned", f.Because);
    }

    [Fact]
    public void Compare_AbortedRun_IsNotAssessable()
    {
        RunComparison comparison = RunComparer.Compare(SampleRun.Healthy().Run, SampleRun.AbortedWithoutFeatures().Run);
        Assert.Equal(ComparisonOutcome.NotAssessable, comparison.Outcome);
        Assert.Equal("B has no features", comparison.SensorsBecause);
        Assert.All(comparison.Features, f => Assert.Equal(DifferenceOutcome.NotAssessable, f.Outcome));
    }

    [Fact]
    public void Compare_AnotherProfile_HoldsBothAgainstTheLimitsOfB()
    {
        SealedRun a = SampleRun.Healthy().Run;
        SealedRun b = SampleRun.Healthy().With(s => s with
        {
            Profile = s.Profile with { Sha256 = new string('9', 64), Version = "2.0.0", Limits = [.. s.Profile.Limits.Select(l => l.Feature == Running ? l with { Upper = 0.21 } : l)] },
        }).Run;
        b = b with { Record = b.Record with { Judgement = Judge.Decide(b.Record.Features!, b.Record.Start.Profile, b.Return) } };
        FeatureDifference f = RunComparer.Compare(a, b).Features.Single(f => f.Name == Running);
        Assert.Equal(0.21, f.Limit!.Upper);
        Assert.Equal(FindingDecision.DoesNotConform, f.DecisionA);
    }

    [Fact]
    public void Compare_SerialSetRight_IsTheCorrectedUnit()
    {
        SealedRun run = SampleRun.Healthy().Run;
        SealedRun other = SampleRun.Healthy().With(s => s with { Return = s.Return with { Serial = "ND4-1" } }).Run;
        Assert.False(RunComparer.Compare(run, other).SameUnit);
        Correction correction = new() { Run = other.Record.Start.Id, MadeAt = other.Record.EndedAt, Fact = CorrectedFact.Serial, Was = "ND4-1", To = run.Return.Serial, Because = "label misread", By = "R. Alder" };
        Assert.True(RunComparer.Compare(run, other with { Entries = [new SealedEntry(1, new string('d', 64), correction)] }).SameUnit);
    }

    [Fact]
    public void Compare_TwoFamilies_IsRefused() =>
        Assert.Throws<ArgumentException>(() => RunComparer.Compare(
            SampleRun.Healthy().Run, SampleRun.Healthy().With(s => s with { Profile = s.Profile with { Family = "zone-selector-3" } }).Run));

    private static FeatureDifference Difference(Feature a, Feature b, Func<BenchSnapshot, BenchSnapshot>? bench = null)
    {
        SealedRun second = SampleRun.Healthy().With(s => s with { Bench = bench?.Invoke(s.Bench) ?? s.Bench }).Run;
        return RunComparer.Compare(With(SampleRun.Healthy().Run, [a]), With(second, [b])).Features.Single(f => f.Name == a.Name);
    }

    private static Feature Metered(double value, double scatter, double sensitivity = 1, double meter = 0.02)
    {
        Contribution[] budget =
        [
            new("current meter", EvaluationType.B, ErrorDistribution.Normal, meter) { Sensitivity = sensitivity },
            new("scatter from move to move", EvaluationType.A, ErrorDistribution.Normal, scatter),
        ];
        return Feature.Of(Running, value, Math.Sqrt(budget.Sum(c => c.InFeature * c.InFeature)), 9) with { Budget = budget };
    }

    private static SealedRun With(SealedRun run, IReadOnlyList<Feature> features) =>
        run with { Record = run.Record with { Features = run.Record.Features! with { Features = features } } };
}
