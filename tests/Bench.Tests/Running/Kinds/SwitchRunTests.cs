using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Tests.Running.Kinds;

/// <summary>Whole runs of units with port switches, over the simulated byte link: how they are steered and judged.</summary>
public class SwitchRunTests
{
    private static readonly Profile Mist = KindRun.Profile("mist-selector-4");

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Run_Healthy_LandsInEverySwitchAndIsReusable(int seed)
    {
        KindRun run = new("port-switches", Mist, "healthy", (ulong)seed);
        RunRecord record = run.Execute();

        Assert.Null(record.Abort);
        Assert.Equal(Disposition.Reusable, record.Judgement!.Disposition);
        Assert.All(record.Moves, m => Assert.Equal(MoveEnd.Landed, m.End));
        Assert.All(record.Features!.Moves, m => Assert.Equal(Mist.Ports.Single(p => p.Name == m.ToPort).Count, m.LandingCount));
        Assert.Equal(1.0, record.Features.Ring.Coverage);

        // The plant, not the record: it rests well within the closed arc, whichever way it came.
        Assert.InRange(Mist.Ring.Difference(run.Unit.EncoderPosition, record.Moves[^1].TargetCount), -8.0, 8.0);
        Assert.False(run.Unit.UpCoil || run.Unit.DownCoil);
    }

    [Fact]
    public void Run_Healthy_MeasuresWidthTimeAndResistanceAndSaysWhatNeedsACount()
    {
        RunFeatures features = new KindRun("port-switches", Mist).Execute().Features!;

        Assert.All(Named(features, "switch.width_ratio"), f => Assert.Equal(1.0, f.Value!.Value, 0.1));
        Assert.Equal(4, Named(features, "switch.width_ratio").Count());
        Assert.Equal(1.0, Named(features, "switch.travel_time_ratio").Single().Value!.Value, 0.03);
        Assert.Equal(15.0, Named(features, "winding.resistance_ohm").Single().Value!.Value, 1.5);
        Assert.Equal(0.18, Named(features, "current.running_a").Single().Value!.Value, 0.02);
        Assert.Equal("port switches give no count between ports", Assert.Single(Named(features, "landing.error_counts")).NotAssessableBecause);
        Assert.All(FeatureCatalog.All.Where(d => !d.OnlyWhereNamed), d => Assert.Contains(features.Features, f => f.Name == d.Name));
    }

    [Theory]
    [InlineData("dead-switch", Disposition.Repairable, "dead-switch", "switch.dead_ports")]
    [InlineData("stuck-switch", Disposition.Repairable, "stuck-switch", "switch.contradictions")]
    [InlineData("seized-valve", Disposition.Scrap, "seized-valve", "motion.locked_moves")]
    [InlineData("seized-motor", Disposition.Scrap, "seized-motor", "motion.uncoupled_locked")]
    [InlineData("open-winding", Disposition.Repairable, "open-winding", "motion.no_current_moves")]
    [InlineData("stripped-gear", Disposition.Scrap, "stripped-gear", "motion.free_running_moves")]
    [InlineData("dead-feedback:silent", Disposition.Repairable, "dead-feedback", "feedback.silent_share")]
    [InlineData("dead-feedback:frozen", Disposition.Repairable, "frozen-feedback", "motion.count_still_moves")]
    [InlineData("intermittent-connector", Disposition.Repairable, "intermittent-connector", "feedback.dropouts")]
    public void Run_Faulty_IsFoundForWhatItIs(string condition, Disposition disposition, string cause, string feature)
    {
        for (ulong seed = 1; seed <= 3; seed++)
        {
            RunRecord record = new KindRun("port-switches", Mist, condition, seed).Execute();

            Assert.Equal(disposition, record.Judgement!.Disposition);
            Assert.Equal(cause, record.Judgement.Causes[0].Id);
            Assert.Contains(record.Judgement.Findings, f => f.Feature.Name == feature && f.Decision == FindingDecision.DoesNotConform);
            Assert.True(record.OutputsConfirmedOff);
        }
    }

    [Theory]
    [InlineData("dead-switch", "switch.dead_ports")]
    [InlineData("stuck-switch", "switch.contradictions")]
    public void Run_OneBadSwitch_IsNamed(string condition, string feature)
    {
        for (ulong seed = 1; seed <= 3; seed++)
        {
            KindRun run = new("port-switches", Mist, condition, seed);
            RunRecord record = run.Execute();
            int bad = run.Unit.Feedback.OpenSwitches.Concat(run.Unit.Feedback.ClosedSwitches).Single();
            Assert.Equal(Mist.Ports[bad].Name, Assert.Single(Named(record.Features!, feature)).Subject);
            Assert.Equal(0, Named(record.Features!, "switch.weak_ports").Single().Value ?? 0);
        }
    }

    [Fact]
    public void Run_DeadSwitch_EndsAtTheNextPortWithoutStallingAnywhere()
    {
        RunRecord record = new KindRun("port-switches", Mist, "dead-switch").Execute();

        Assert.All(record.Moves, m => Assert.True(m.End is MoveEnd.Landed or MoveEnd.OverTime, m.End.ToString()));
        Assert.All(record.Moves.Where(m => m.End == MoveEnd.OverTime), m => Assert.InRange(m.DriveOffS - m.DriveOnS, 0.5, 7.0));
        Assert.Contains(record.Features!.Moves, m => m.FailedBecause is string because && because.Contains("was not reached", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_SeizedUnit_IsSwitchedOffWithinTheProfilesTimeOfNoMotion()
    {
        RunRecord record = new KindRun("port-switches", Mist, "seized-valve").Execute();
        Assert.All(record.Moves, m => Assert.InRange(m.DriveOffS - m.DriveOnS, 0.4, 0.6));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Run_DeadCurrentMeter_IsTheBenchsFaultNotTheUnits(int seed)
    {
        KindRun run = new("port-switches", Mist, "healthy", (ulong)seed);
        run.Bench.FailCurrentMeter("mist", Bench.Simulation.Benches.MeterFailure.Dead);
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.BenchFault, record.Abort);
        Assert.Null(record.Judgement);
    }

    private static IEnumerable<Feature> Named(RunFeatures features, string name) => features.Features.Where(f => f.Name == name);
}
