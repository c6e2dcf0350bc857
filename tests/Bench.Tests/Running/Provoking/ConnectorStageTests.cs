using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Tests.Running.Provoking;

/// <summary>A person moves the connector; each test of an end tries to have the unit move, or the run go on, with hands at it.</summary>
public class ConnectorStageTests
{
    private const string Closed = "gate closed: the connector is to be moved by hand";
    private static readonly Profile Connector = ProvokingProfile.With(StageKind.Connector);
    private static readonly Profile ConnectorAndStarts = ProvokingProfile.With(StageKind.Connector, StageKind.Starts);

    [Fact]
    public void Stage_HealthyUnit_LastsAsLongAsItsPlanNeedsAndThenTheRunGoesOn()
    {
        VirtualRun run = new(ConnectorAndStarts);
        RunRecord record = run.Execute();

        ProvocationResult moved = record.Features!.Provocations!.Single(p => p.Stage == StageKind.Connector);
        Assert.Equal((SequentialState.Shown, 0), (moved.Test.State, moved.Test.Failed));
        Assert.Equal(Connector.Routine[^1].Plan(Connector.Demonstration).FewestMoves, moved.Test.Moves);
        Assert.Empty(moved.Dropouts!);
        Assert.Contains(record.Moves, m => m.Stage == StageKind.Starts);
        Assert.Equal(Disposition.Reusable, record.Judgement!.Disposition);
        Assert.False(run.Unit.ConnectorMoved);
    }

    [Fact]
    public void Stage_PersonStopsEarly_IsNotCalledPassed()
    {
        RunRecord record = new VirtualRun(ConnectorAndStarts) { MovesForS = 1.5 }.Execute();

        string said = Assert.Single(record.Judgement!.Reasons, r => r.StartsWith("Provoked", StringComparison.Ordinal));
        Assert.StartsWith("Provoked, it did not fail either: short starts (", said, StringComparison.Ordinal);
        Assert.EndsWith("Provoked for too short a time to tell: connector moved by hand (1 second).", said, StringComparison.Ordinal);
    }

    [Fact]
    public void Stage_HandsAreNear_NothingIsEnergisedAndSafeStateAndWiringAreConfirmedAnew()
    {
        List<string> events = [.. new VirtualRun(ConnectorAndStarts).Execute().Events.Select(e => e.Text)];
        int closed = events.IndexOf(Closed);
        int off = events.IndexOf("drive: off, read back", closed);
        int told = events.FindIndex(e => e.StartsWith("the connector was moved for ", StringComparison.Ordinal));
        int confirmed = events.FindIndex(told, e => e.StartsWith("cautions and wiring confirmed", StringComparison.Ordinal));
        int on = events.FindIndex(closed, e => e.EndsWith(": on", StringComparison.Ordinal));

        Assert.True(closed > 0 && closed < off && off < told && told < confirmed, string.Join("; ", events));
        Assert.True(on < 0 || on > confirmed);
        Assert.Contains("drive: off, read back", events[told..confirmed]);
    }

    // The profile's moves at rest find nothing in it; by its own shaking this cable never opens.
    [Fact]
    public void Stage_CableBrokenInItsJacket_IsFoundByItAndByNothingElse()
    {
        RunRecord[] records = [.. Enumerable.Range(1, 8).Select(seed => new VirtualRun(Connector, "strained-cable", (ulong)seed).Execute())];

        Assert.All(records, r =>
        {
            Assert.Equal((0, SequentialState.Shown), (r.Features!.Demonstration.Failed, r.Features.Demonstration.State));
            ProvocationResult moved = r.Features.Provocations![0];
            Assert.Equal(SequentialState.Refuted, moved.Test.State);
            Assert.All(moved.Dropouts!, d => Assert.Equal(ConnectorPair.Feedback, d.Pair));
            Assert.All(moved.Dropouts!, d => Assert.InRange(d.LengthS, 0.03, 0.40));
            Assert.Contains(r.Judgement!.Findings, f => f.Feature.Name == ProvokedFeatures.ConnectorDropouts && f.Decision == FindingDecision.DoesNotConform);
            Assert.Contains(r.Events, e => e.Text.StartsWith("feedback dropped out at ", StringComparison.Ordinal));
        });
    }

    [Fact]
    public void Stage_OfARun_LeavesEveryOtherFeatureAsItWas()
    {
        RunFeatures with = new VirtualRun(Connector, "strained-cable").Execute().Features!;
        RunFeatures without = new VirtualRun(Connector with { Routine = [.. Connector.Routine.Where(s => s.Kind != StageKind.Connector)] }, "strained-cable").Execute().Features!;

        Assert.Equal(
            without.Features.Where(ProvokingProfile.IsOfTheUnitInUse).Select(f => (f.Name, f.Value, f.StandardUncertainty, f.Observations)),
            with.Features.Where(ProvokingProfile.IsOfTheUnitInUse).Select(f => (f.Name, f.Value, f.StandardUncertainty, f.Observations)));
    }

    [Fact]
    public void Stage_NobodyThere_IsLeftOutAndTheNextOneIsMade()
    {
        VirtualRun run = new(ConnectorAndStarts) { Attended = false };
        RunRecord record = run.Execute();

        Assert.Equal(0, run.Asked);
        Assert.Contains(record.Events, e => e.Text == "stage connector is left out: nobody is there to move the connector");
        Assert.DoesNotContain(record.Events, e => e.Text == Closed);
        Assert.Contains(record.Moves, m => m.Stage == StageKind.Starts);
    }

    [Theory]
    [InlineData(false, true)]
    [InlineData(true, false)]
    public void Stage_Refused_NothingMovesAnyMoreAndTheUnitIsJudgedByWhatIsKnown(bool approaches, bool leaves)
    {
        VirtualRun run = new(ConnectorAndStarts) { Approaches = approaches, Leaves = leaves };
        RunRecord record = run.Execute();

        Assert.Null(record.Abort);
        Assert.NotNull(record.Judgement);
        Assert.DoesNotContain(record.Moves, m => m.Stage == StageKind.Starts && m.DriveOnS > At(record, Closed));
        Assert.Contains(record.Events, e => e.Text == "no further stages: the gate stays closed, for hands may be at the unit");
        Assert.True(record.OutputsConfirmedOff);
    }

    [Fact]
    public void Stage_PersonStopsEarly_IsToldFromAnAnswerOfTheTest()
    {
        RunRecord record = new VirtualRun(Connector) { MovesForS = 4.5 }.Execute();

        Assert.Contains(record.Events, e => e.Text.StartsWith("the connector was moved for 4 whole seconds, 0 dropouts; the person stopped", StringComparison.Ordinal));
        Assert.Equal(SequentialState.Continue, record.Features!.Provocations![0].Test.State);
        Assert.Null(record.Abort);
    }

    public enum Trouble { EmergencyStop, ContactWelded, BoardRestarts, Cancelled, MetersDead, PowerCut }

    [Theory]
    [InlineData(Trouble.EmergencyStop, AbortReason.EmergencyStop)]
    [InlineData(Trouble.ContactWelded, AbortReason.OutputNotConfirmed)]
    [InlineData(Trouble.BoardRestarts, AbortReason.BenchFault)]
    [InlineData(Trouble.Cancelled, AbortReason.Cancelled)]
    [InlineData(Trouble.MetersDead, AbortReason.BenchFault)]
    public void Stage_TroubleWhileHandsAreAtTheUnit_EndsTheRunAndNothingWasEnergised(Trouble trouble, AbortReason expected)
    {
        VirtualRun run = new(Connector);
        RunRecord record = With(run, trouble);

        Assert.Equal(expected, record.Abort);
        Assert.True(run.OutputsAreOff);
        Assert.DoesNotContain(record.Events, e => e.TimeS > At(record, Closed) && e.Text.EndsWith(": on", StringComparison.Ordinal));
    }

    // The person reads the cautions for five seconds: trouble within them must not leave the question standing.
    [Theory]
    [InlineData(Trouble.EmergencyStop)]
    [InlineData(Trouble.MetersDead)]
    [InlineData(Trouble.Cancelled)]
    public void Stage_TroubleWhileThePersonIsAsked_WithdrawsTheQuestion(Trouble trouble)
    {
        VirtualRun run = new(Connector);
        run.Journal.OnEvent = e =>
        {
            if (e.Text == Closed)
            {
                run.After(2000, () => Act(run, trouble));
            }
        };
        RunRecord record = run.Execute();

        Assert.NotNull(record.Abort);
        Assert.Equal((1, 0), (run.Asked, run.Standing));
    }

    // The supply's wires may open, too: that is what is looked for, and not the bench's fault.
    [Fact]
    public void Stage_SupplyGoesWhileHandsAreAtTheUnit_IsADropoutOfTheSupply()
    {
        VirtualRun run = new(Connector);
        RunRecord record = With(run, Trouble.PowerCut);

        Assert.Null(record.Abort);
        Assert.Contains(record.Features!.Provocations![0].Dropouts!, d => d.Pair == ConnectorPair.Supply);
        Assert.True(run.OutputsAreOff);
    }

    private static RunRecord With(VirtualRun run, Trouble trouble)
    {
        run.Journal.OnEvent = e =>
        {
            if (e.Text == Closed)
            {
                // The person reads for five seconds, then moves it.
                run.After(7500, () => Act(run, trouble));
            }
        };
        return run.Execute();
    }

    private static void Act(VirtualRun run, Trouble trouble)
    {
        switch (trouble)
        {
            case Trouble.EmergencyStop:
                run.Bench.PressEmergencyStop();
                break;
            case Trouble.ContactWelded:
                run.Weld(up: true);
                break;
            case Trouble.BoardRestarts:
                run.Bench.Restart("io");
                break;
            case Trouble.Cancelled:
                run.Cancel.Cancel();
                break;
            case Trouble.MetersDead:
                run.Bench.Silence("io");
                run.After(3000, () => run.Bench.Silence("io", false));
                break;
            case Trouble.PowerCut:
                run.Bench.CutSupply();
                run.After(300, () => run.Bench.CutSupply(false));
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(trouble));
        }
    }

    private static double At(RunRecord record, string text) => record.Events.First(e => e.Text == text).TimeS;
}
