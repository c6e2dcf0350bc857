using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;

namespace Bench.Tests.Running.Provoking;

/// <summary>Short starts, made to bring out a brush that hangs.</summary>
public class StartsStageTests
{
    private static readonly Profile Starts = ProvokingProfile.With(StageKind.Starts);

    [Fact]
    public void Starts_HealthyUnitReportedIntermittent_AreAsManyAsTheirPlanNeedsAndAllPass()
    {
        RunRecord record = new VirtualRun(Starts).Execute();

        ProvocationResult starts = Assert.Single(record.Features!.Provocations!);
        Assert.Equal(StageKind.Starts, starts.Stage);
        Assert.Equal(SequentialState.Shown, starts.Test.State);
        Assert.Equal(Starts.Routine[^1].Plan(Starts.Demonstration).FewestMoves, starts.Test.Moves);
        Assert.Equal(0, starts.Test.Failed);
        Assert.Equal(0, record.Features.Features.Single(f => f.Name == ProvokedFeatures.FailedStarts).Value);
    }

    [Fact]
    public void Starts_OfARun_BeginAtEverOtherCounts()
    {
        Move[] starts = [.. new VirtualRun(Starts).Execute().Moves.Where(m => m.Stage == StageKind.Starts)];

        Assert.True(starts.Length > 10);
        Assert.True(starts.Select(m => m.TargetCount).Distinct().Count() > 0.8 * starts.Length);
        Assert.Contains(starts, m => m.TravelCounts > 0);
        Assert.Contains(starts, m => m.TravelCounts < 0);
        Assert.All(starts, m => Assert.InRange(Math.Abs(m.TravelCounts), 0.12 * Starts.Ring.Counts, (0.30 * Starts.Ring.Counts) + 1));
    }

    // Nothing that is known of the unit in use may change by what was done to provoke it.
    [Fact]
    public void Starts_OfARun_LeaveEveryOtherFeatureAsItWas()
    {
        RunFeatures with = new VirtualRun(Starts).Execute().Features!;
        RunFeatures without = new VirtualRun(Starts with { Routine = [.. Starts.Routine.Where(s => s.Kind != StageKind.Starts)] }).Execute().Features!;

        Assert.Equal(without.Demonstration.Path, with.Demonstration.Path);
        Assert.Equal(without.Ring.Coverage, with.Ring.Coverage);
        Assert.Equal(
            without.Features.Where(ProvokingProfile.IsOfTheUnitInUse).Select(f => (f.Name, f.Value, f.StandardUncertainty, f.Observations)),
            with.Features.Where(ProvokingProfile.IsOfTheUnitInUse).Select(f => (f.Name, f.Value, f.StandardUncertainty, f.Observations)));
    }

    [Fact]
    public void Starts_BrushHangs_FailAndAreAFinding()
    {
        RunRecord record = Enumerable.Range(1, 40).Select(seed => new VirtualRun(Starts, "hanging-brush", (ulong)seed).Execute())
            .First(r => r.Features!.Provocations is [{ Test.Failed: > 0 }]);

        ProvocationResult starts = record.Features!.Provocations![0];
        Assert.True(starts.LowerLimit95 > 0);
        Assert.True(starts.Test.UpperLimit95 > starts.LowerLimit95);
        Finding finding = record.Judgement!.Findings.Single(f => f.Feature.Name == ProvokedFeatures.FailedStarts);
        Assert.Equal(FindingDecision.DoesNotConform, finding.Decision);
        Assert.Equal(Disposition.Repairable, record.Judgement.Disposition);
        Assert.Equal(0, record.Features.Demonstration.Failed);
        Assert.True(record.OutputsConfirmedOff);
    }

    // Whoever rejects the claim has to say what was done to bring the fault out, and what was not.
    [Fact]
    public void Starts_HealthyUnitReportedIntermittent_AreAReasonOfTheVerdict()
    {
        Profile also = ProvokingProfile.With(StageKind.Starts, StageKind.LowSupply);
        RunRecord record = new VirtualRun(also).Execute();

        int starts = record.Features!.Provocations!.Single(p => p.Stage == StageKind.Starts).Test.Moves;
        Assert.Contains($"Provoked, it did not fail either: short starts ({starts} starts). Not tried: least supply.", record.Judgement!.Reasons);
        Assert.DoesNotContain(
            new VirtualRun(also) { Symptom = Symptom.Constant }.Execute().Judgement!.Reasons, r => r.Contains("rovoked", StringComparison.Ordinal));
    }

    [Fact]
    public void Starts_HealthyUnitReportedConstant_AreNotMade()
    {
        RunRecord record = new VirtualRun(Starts) { Symptom = Symptom.Constant }.Execute();

        Assert.DoesNotContain(record.Moves, m => m.Stage == StageKind.Starts);
        Assert.Null(record.Features!.Provocations);
        Assert.Equal(RunOutcome.Judged, record.Outcome);
    }

    [Fact]
    public void Starts_UnitThatFailsByItself_AreNotMade()
    {
        RunRecord record = new VirtualRun(Starts, "seized-motor").Execute();

        Assert.DoesNotContain(record.Moves, m => m.Stage == StageKind.Starts);
    }

    [Fact]
    public void Starts_Plan_IsToldBeforeAnythingIsEnergisedAndTheChoiceInWords()
    {
        RunEvent[] events = [.. new VirtualRun(Starts).Execute().Events];

        int plan = Array.FindIndex(events, e => e.Text.StartsWith("plan of stage starts, should it come to it: a unit failing 0.5 % of moves passes", StringComparison.Ordinal));
        int firstOn = Array.FindIndex(events, e => e.Text.Contains(": on", StringComparison.Ordinal) && e.Kind == RunEventKind.OutputCommand);
        Assert.InRange(plan, 0, firstOn - 1);
        Assert.Contains(events, e => e.Text.StartsWith("stage starts is next: it promises ", StringComparison.Ordinal));
    }
}
