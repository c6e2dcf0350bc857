using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Tests.Running.Kinds;

namespace Bench.Tests.Running.Hands;

// A locked unit, its valve or its motor seized, told apart by one move with the valve off.
public class UncoupledStageTests
{
    [Theory]
    [InlineData("seized-valve", 0)]
    [InlineData("seized-motor", 1)]
    public void LockedDiverter_UncoupledMove_TellsValveFromMotor(string condition, double locked)
    {
        VirtualRun run = new(VirtualRun.Diverter, condition, 5);
        RunRecord record = run.Execute();
        Told(record, condition, locked);
        Assert.Equal(1, run.Asked);
        Assert.Equal(Disposition.Scrap, record.Judgement!.Disposition);
        Assert.Equal("Take the unit to recycling.", record.Judgement.NextStep);
    }

    [Theory]
    [InlineData("seized-valve", 0)]
    [InlineData("seized-motor", 1)]
    public void LockedSelector_UncoupledMove_TellsValveFromMotor(string condition, double locked) =>
        Told(new VirtualRun(VirtualRun.Selector, condition, 6).Execute(), condition, locked);

    [Theory]
    [InlineData("port-switches", "mist-selector-4", "seized-valve", 0)]
    [InlineData("port-switches", "mist-selector-4", "seized-motor", 1)]
    [InlineData("commanded", "feed-router-4", "seized-valve", 0)]
    [InlineData("commanded", "feed-router-4", "seized-motor", 1)]
    public void LockedUnitOfOtherKind_UncoupledMove_TellsValveFromMotor(string bench, string family, string condition, double locked) =>
        Told(new KindRun(bench, KindRun.Profile(family), condition).Execute(), condition, locked);

    [Fact]
    public void UncoupledMove_StaysOutOfEveryOtherFeature()
    {
        VirtualRun with = new(VirtualRun.Diverter, "seized-valve", 7);
        VirtualRun without = new(VirtualRun.Diverter, "seized-valve", 7) { Uncouples = _ => false };
        RunFeatures a = with.Execute().Features!;
        RunRecord kept = without.Execute();
        RunFeatures b = kept.Features!;
        Assert.Equal(b.Moves.Count + 1, a.Moves.Count);
        Assert.Equal(StageKind.Uncoupled, a.Moves[^1].Stage);
        Assert.False(a.Moves[^1].Counts);
        Assert.Equal(b.Demonstration.Moves, a.Demonstration.Moves);
        Assert.Equal(b.Ring.Coverage, a.Ring.Coverage);
        Assert.Equal(Values(b), Values(a));
        Assert.Contains(kept.Events, e => e.Text == "no move without the valve: valve and motor are not told apart");
    }

    [Fact]
    public void NobodyUncouples_IsScrapAndNamesTheNextCheck()
    {
        RunRecord record = new VirtualRun(VirtualRun.Diverter, "seized-motor", 8) { Uncouples = _ => false }.Execute();
        Assert.Equal(Disposition.Scrap, record.Judgement!.Disposition);
        Assert.StartsWith("First check:", record.Judgement.NextStep, StringComparison.Ordinal);
        Assert.DoesNotContain(record.Moves, m => m.Stage == StageKind.Uncoupled);
    }

    [Theory]
    [InlineData("healthy")]
    [InlineData("open-winding")]
    public void UnitThatIsNotLocked_IsNotUncoupled(string condition)
    {
        VirtualRun run = new(VirtualRun.Diverter with { Routine = [.. VirtualRun.Short.Routine, VirtualRun.Diverter.Routine[^1]] }, condition);
        RunRecord record = run.Execute();
        Assert.Equal(0, run.Asked);
        Assert.DoesNotContain(record.Events, e => e.Text == "stage uncoupled");
    }

    [Fact]
    public void WhileTheValveIsTakenOff_TheGateIsClosedAndIsConfirmedAnewBeforeItMoves()
    {
        List<string> events = [.. new VirtualRun(VirtualRun.Diverter, "seized-valve", 9).Execute().Events.Select(e => e.Text)];
        int closed = events.FindIndex(e => e == "gate closed: the valve is to be uncoupled");
        int off = events.FindIndex(closed, e => e == "drive: off, read back");
        int confirmed = events.FindIndex(off, e => e.StartsWith("cautions and wiring confirmed", StringComparison.Ordinal));
        int on = events.FindIndex(closed, e => e.EndsWith(": on", StringComparison.Ordinal));
        Assert.True(closed > 0 && off > closed && confirmed > off && on > confirmed, string.Join("; ", events));
    }

    [Fact]
    public void EmergencyStopWhileTheValveIsTakenOff_Aborts()
    {
        VirtualRun run = new(VirtualRun.Diverter, "seized-valve", 9);
        run.Journal.OnEvent = e =>
        {
            if (e.Text.StartsWith("gate closed", StringComparison.Ordinal))
            {
                run.After(1000, () => run.Bench.PressEmergencyStop());
            }
        };
        Assert.Equal(AbortReason.EmergencyStop, run.Execute().Abort);
    }

    private static void Told(RunRecord record, string condition, double locked)
    {
        string all = record.AbortText ?? string.Join("; ", record.Events.Select(e => e.Text));
        Assert.True(record.Judgement?.Causes[0].Id == condition, all);
        Assert.True(record.Judgement.Causes[0].Probability > 0.9);
        Move move = record.Moves.Single(m => m.Stage == StageKind.Uncoupled);
        Assert.InRange(move.DriveOffS - move.DriveOnS, 0.1, 1.6);
        Assert.Equal(locked, record.Features!.Features.Single(f => f.Name == UncoupledFeatures.Locked).Value);
        ElectricalData nominal = record.Start.Profile.Electrical;
        double current = record.Features.Features.Single(f => f.Name == UncoupledFeatures.Current).Value!.Value;

        // The meter's noise reaches below zero.
        Assert.InRange(current, locked > 0 ? nominal.RunningCurrentA * 2 : -0.004, locked > 0 ? nominal.StallCurrentA * 1.2 : nominal.RunningCurrentA);
    }

    // The supply and the link are read for longer.
    private static List<string> Values(RunFeatures features) =>
        [.. features.Features.Where(f => !f.Name.StartsWith("bench.", StringComparison.Ordinal) && !f.Name.Contains("uncoupled", StringComparison.Ordinal) && f.Name != "current.off_a")
            .Select(f => $"{f.Name} {f.Subject} {f.Value} {f.NotAssessableBecause}")];
}
