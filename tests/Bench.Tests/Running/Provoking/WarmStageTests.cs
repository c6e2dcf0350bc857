using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Tests.Running.Provoking;

/// <summary>The diverter warmed until its winding is as warm as in use on a summer day; the moves before leave it cooler.</summary>
public class WarmStageTests
{
    private static readonly Profile Warm = Of(ProvokingProfile.With(StageKind.Warm));

    [Fact]
    public void Stage_HealthyUnit_StartsUntilTheEstimateIsWarmAndPasses()
    {
        RunRecord record = new VirtualRun(Warm).Execute();

        ProvocationResult warm = Assert.Single(record.Features!.Provocations!);
        Assert.Equal((StageKind.Warm, SequentialState.Shown, 0), (warm.Stage, warm.Test.State, warm.Test.Failed));
        MoveFeatures[] made = [.. record.Features.Moves.Where(m => m.Stage == StageKind.Warm)];
        Assert.Equal(warm.Test.Moves, made.Count(m => m.ToPort is not null));
        Assert.True(made.Count(m => m.ToPort is null) > 10);
        Assert.Contains(record.Events, e => e.Text.StartsWith("the winding is estimated at 76.", StringComparison.Ordinal));
        Assert.Equal(Disposition.Reusable, record.Judgement!.Disposition);
    }

    // S7: however it hurries, no window holds more than the profile's duty, and no move is longer than allowed.
    [Fact]
    public void Stage_Starting_KeepsDutyAndLongestOnTime()
    {
        RunRecord record = new VirtualRun(Warm).Execute();
        SafetyLimits safety = Warm.Safety;
        Assert.All(record.Moves, m => Assert.True(m.DriveOffS - m.DriveOnS <= safety.MostOnMs / 1000.0));
        foreach (Move end in record.Moves)
        {
            double from = end.DriveOffS - safety.DutyWindowS;
            double on = record.Moves.Sum(m => Math.Max(0, Math.Min(m.DriveOffS, end.DriveOffS) - Math.Max(m.DriveOnS, from)));
            Assert.True(on <= (safety.MostDuty * safety.DutyWindowS) + 0.5, $"{on} s on in the window that ends at {end.DriveOffS} s");
        }
    }

    [Fact]
    public void Stage_TimeIsOver_TestsAsWarmAsItGot()
    {
        Profile hurried = Warm with { Routine = [.. Warm.Routine.Select(s => s.Kind == StageKind.Warm ? s with { MostS = 20 } : s)] };
        RunRecord record = new VirtualRun(hurried).Execute();

        Assert.DoesNotContain(record.Events, e => e.Text.StartsWith("the winding is estimated at 76.", StringComparison.Ordinal));
        Assert.True(record.Features!.Provocations![0].Test.Moves > 5);
    }

    [Fact]
    public void Stage_WindingThatOpensWhenWarm_IsFoundByItAndByNothingElse()
    {
        RunRecord[] records = [.. Enumerable.Range(1, 6).Select(seed => new VirtualRun(Warm, "warm-open-winding", (ulong)seed).Execute())];

        Assert.All(records, r =>
        {
            Assert.Equal((0, SequentialState.Shown), (r.Features!.Demonstration.Failed, r.Features.Demonstration.State));
            Assert.Equal(SequentialState.Refuted, r.Features.Provocations![0].Test.State);
            Assert.Contains(r.Judgement!.Findings, f => f.Feature.Name == ProvokedFeatures.FailedWarm && f.Decision == FindingDecision.DoesNotConform);
        });
    }

    // What opened by warmth closes again as it cools: no fuse and no relay of the bench does that.
    [Fact]
    public void Stage_WindingThatOpensWhenWarm_IsLetCoolUntilCurrentFlowsAgain()
    {
        RunRecord record = new VirtualRun(Warm, "warm-open-winding", 2).Execute();

        int opened = record.Moves.ToList().FindIndex(m => m.End == MoveEnd.NoCurrent);
        int closed = record.Moves.ToList().FindIndex(opened, m => m.End != MoveEnd.NoCurrent);
        Assert.True(closed > opened + 2);
        Assert.Contains(record.Events, e => e.Text.StartsWith("current flows again, ", StringComparison.Ordinal));
        Assert.True(record.OutputsConfirmedOff);
    }

    // The same moves without current, but the bench's own contacts: nothing comes back, and nobody is condemned for it.
    [Fact]
    public void Stage_BenchLosesItsContacts_HoldsTheUnit()
    {
        VirtualRun run = new(Warm);
        run.Journal.OnEvent = e =>
        {
            if (e.Text.StartsWith("the winding is estimated at", StringComparison.Ordinal))
            {
                run.Burn(up: true);
                run.Burn(up: false);
            }
        };
        RunRecord record = run.Execute();

        Assert.Equal(RunOutcome.Held, record.Outcome);
        Assert.Contains(record.Judgement!.Missing, m => m.Contains("the bench's own relays, wires and fuse", StringComparison.Ordinal));
        Assert.Contains(record.Events, e => e.Text.StartsWith("no further stages: no current flows any more, after ", StringComparison.Ordinal));
    }

    // The simulated winding does not warm: the oracle is that it reads as cold as it is.
    [Fact]
    public void Stage_ProfileNamesTheRise_GivesItByResistance()
    {
        Limit named = new() { Feature = "winding.rise_k", Upper = 60, Rule = DecisionRule.Guarded, Severity = Severity.Note };
        Feature cold = new VirtualRun(Warm with { Limits = [.. Warm.Limits, named] }).Execute().Features!.Features.Single(f => f.Name == "winding.rise_k");

        Assert.InRange(cold.Value!.Value, -3 * cold.StandardUncertainty!.Value, 3 * cold.StandardUncertainty.Value);
        Assert.InRange(cold.StandardUncertainty.Value, 0.2, 8);
    }

    private static Profile Of(Profile profile) => profile with
    {
        Routine = [.. profile.Routine.Select(s => s.Kind == StageKind.Warm ? s with { MostS = 420, WarmCelsius = 76 } : s)],
    };
}
