using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Tests.Running.Provoking;

/// <summary>A family whose winding and housing warm together within minutes, so that some moves leave it cold.</summary>
public class WarmStageTests
{
    private static readonly Profile Warm = Of(ProvokingProfile.With(StageKind.Warm));

    [Fact]
    public void Stage_HealthyUnit_TurnsUntilTheEstimateIsWarmAndPasses()
    {
        RunRecord record = new VirtualRun(Warm).Execute();

        ProvocationResult warm = Assert.Single(record.Features!.Provocations!);
        Assert.Equal((StageKind.Warm, SequentialState.Shown, 0), (warm.Stage, warm.Test.State, warm.Test.Failed));
        MoveFeatures[] made = [.. record.Features.Moves.Where(m => m.Stage == StageKind.Warm)];
        Assert.Equal(warm.Test.Moves, made.Count(m => m.ToPort is not null));
        Assert.True(made.Count(m => m.ToPort is null) > 10);
        Assert.Contains(record.Events, e => e.Text.StartsWith("the winding is estimated at 43.", StringComparison.Ordinal));
        Assert.Equal(Disposition.Reusable, record.Judgement!.Disposition);
    }

    // S7: however it hurries, no window holds more than the profile's duty, and no move is longer than allowed.
    [Fact]
    public void Stage_Turning_KeepsDutyAndLongestOnTime()
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
        Profile hurried = Warm with { Routine = [.. Warm.Routine.Select(s => s.Kind == StageKind.Warm ? s with { MostS = 60 } : s)] };
        RunRecord record = new VirtualRun(hurried).Execute();

        Assert.DoesNotContain(record.Events, e => e.Text.StartsWith("the winding is estimated at 43.", StringComparison.Ordinal));
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

    // The simulated winding's own resistance is the oracle: 45 K/W at 12 ohm and 0.22 A are 26 K in the end.
    [Fact]
    public void Stage_ProfileNamesTheRise_GivesItByResistance()
    {
        Limit named = new() { Feature = "winding.rise_k", Upper = 60, Rule = DecisionRule.Guarded, Severity = Severity.Note };
        Feature Rise(string condition) => new VirtualRun(Warm with { Limits = [.. Warm.Limits, named] }, condition).Execute()
            .Features!.Features.Single(f => f.Name == "winding.rise_k");

        Feature cold = Rise("healthy");
        Assert.InRange(cold.Value!.Value, -3 * cold.StandardUncertainty!.Value, 3 * cold.StandardUncertainty.Value);
        Assert.InRange(cold.StandardUncertainty.Value, 0.2, 8);
    }

    private static Profile Of(Profile profile) => profile with
    {
        Safety = profile.Safety with { Winding = new WindingLimits { ThermalKPerW = 45, TimeConstantS = 240, MostCelsius = 110, AmbientCelsius = 25 } },
        Routine = [.. profile.Routine.Select(s => s.Kind == StageKind.Warm ? s with { MostS = 900 } : s)],
    };
}
