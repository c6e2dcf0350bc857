using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Tests.Running.Kinds;

/// <summary>Whole runs of units that turn themselves, over the simulated byte link: what is written to them, and how they are judged.</summary>
public class CommandedRunTests
{
    private const byte UnitAddress = 11;
    private const byte WriteRegister = 0x06;

    private static readonly Profile Router = KindRun.Profile("feed-router-4");

    private static readonly Profile Short = Router with
    {
        Routine =
        [
            new Stage { Kind = StageKind.Supply, MostS = 0.2 },
            new Stage { Kind = StageKind.Homing, MostS = 20, Revolutions = 1, SettleMs = 200 },
            new Stage { Kind = StageKind.PortMoves, MostS = 20, MostMoves = 2, SettleMs = 200 },
        ],
    };

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Run_Healthy_LandsWithinToleranceBothWaysRoundAndIsReusable(int seed)
    {
        KindRun run = new("commanded", Router, "healthy", (ulong)seed);
        RunRecord record = run.Execute();

        Assert.Null(record.Abort);
        Assert.Equal(Disposition.Reusable, record.Judgement!.Disposition);
        Assert.All(record.Moves, m => Assert.Equal(MoveEnd.Landed, m.End));
        Assert.All(record.Features!.Moves, m => Assert.InRange(m.UnitErrorCounts!.Value, -5, 5));
        Assert.Equal(2, record.Moves.Select(m => m.Direction).Distinct().Count());

        // The plant itself, not the record: it stands at the port.
        Assert.Equal(0.0, Router.Ring.Difference(run.Unit.EncoderPosition, record.Moves[^1].TargetCount), 5.5);
    }

    [Theory]
    [InlineData("beside-target", Disposition.Repairable, "lost-zero", "landing.error_counts", MoveEnd.Landed)]
    [InlineData("deaf-controller", Disposition.Repairable, "deaf-controller", "motion.no_current_moves", MoveEnd.NoCurrent)]
    [InlineData("seized-valve", Disposition.Scrap, "seized-valve", "motion.locked_moves", MoveEnd.Stalled)]
    [InlineData("dead-feedback:frozen", Disposition.Repairable, "frozen-feedback", "motion.count_still_moves", MoveEnd.CountStill)]
    [InlineData("stripped-gear", Disposition.Scrap, "stripped-gear", "motion.free_running_moves", MoveEnd.CountStill)]
    public void Run_Faulty_IsFoundForWhatItIs(string condition, Disposition disposition, string cause, string feature, MoveEnd end)
    {
        RunRecord record = new KindRun("commanded", Router, condition, 2).Execute();

        Assert.Equal(disposition, record.Judgement!.Disposition);
        Assert.Equal(cause, record.Judgement.Causes[0].Id);
        Assert.Contains(record.Judgement.Findings, f => f.Feature.Name == feature && f.Decision == FindingDecision.DoesNotConform);
        Assert.All(record.Moves.Where(m => m.Stage != StageKind.Uncoupled), m => Assert.Equal(end, m.End));
        Assert.True(record.OutputsConfirmedOff);
    }

    [Fact]
    public void Run_NotConfirmed_WritesNothingToTheUnit()
    {
        List<byte[]> sent = [];
        RunRecord record = new KindRun("commanded", Short) { Confirms = false }.Execute(links => new SpiedLinks(links, sent));

        Assert.Equal(AbortReason.NotConfirmed, record.Abort);
        Assert.DoesNotContain(sent, f => f[0] == UnitAddress && f[1] is not (0x03 or 0x04));
    }

    [Fact]
    public void Run_Healthy_TellsEachTargetOnceAndOnlyAfterTheConfirmation()
    {
        List<byte[]> sent = [];
        KindRun run = new("commanded", Short);
        int writesAtConfirmation = -1;
        run.Journal.OnEvent = e => writesAtConfirmation = e.Kind == RunEventKind.Confirmation ? TargetsIn(sent).Length : writesAtConfirmation;
        RunRecord record = run.Execute(links => new SpiedLinks(links, sent));

        Assert.Equal(0, writesAtConfirmation);

        // scale_counts 0.5: a count is written as two.
        Assert.Equal(record.Moves.Select(m => 2 * m.TargetCount), TargetsIn(sent));
        Assert.All(record.Moves, m => Assert.Contains(record.Events, e => e.Kind == RunEventKind.OutputCommand && e.Text.EndsWith($"on, target {m.TargetCount}", StringComparison.Ordinal)));
    }

    [Fact]
    public void Run_UnitFallsSilentInAMove_IsSwitchedOffWithoutIt()
    {
        KindRun run = new("commanded", Short);
        double? onS = null;
        run.Journal.OnEvent = e =>
        {
            if (onS is null && e.Kind == RunEventKind.OutputCommand && e.Text.Contains("target", StringComparison.Ordinal))
            {
                onS = e.TimeS;
                run.Time.CreateTimer(_ => run.Bench.Silence("unit"), null, TimeSpan.FromMilliseconds(300), Timeout.InfiniteTimeSpan);
            }
        };
        RunRecord record = run.Execute();

        Move move = Assert.Single(record.Moves);
        Assert.Equal(MoveEnd.FeedbackLost, move.End);
        Assert.InRange(move.DriveOffS - onS!.Value, 0.4, 0.7); // 120 ms without feedback, and a slot of two time-outs
        Assert.True(record.OutputsConfirmedOff);
    }

    [Fact]
    public void Run_DeadCurrentMeter_IsTheBenchsFaultNotTheUnits()
    {
        KindRun run = new("commanded", Short);
        run.Bench.FailCurrentMeter("router", Bench.Simulation.Benches.MeterFailure.Dead);
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.BenchFault, record.Abort);
        Assert.True(record.OutputsConfirmedOff);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Run_LinkFailsAtAnyRequest_EndsOffOrSaysThatItIsNot(bool forGood)
    {
        for (int failsAt = 1; failsAt < 600; failsAt += forGood ? 37 : 13)
        {
            KindRun run = new("commanded", Short);
            RunRecord record = run.Execute(links => new BrokenLinks(links, failsAt, forGood));
            bool stillFed = run.Unit.SupplyCurrentA > 0.01;
            Assert.True(!stillFed || !record.OutputsConfirmedOff, $"request {failsAt}");
            Assert.True(record.OutputsConfirmedOff || forGood, $"request {failsAt}");
        }
    }

    private static int[] TargetsIn(List<byte[]> sent) =>
        [.. sent.Where(f => f[0] == UnitAddress && f[1] == WriteRegister).Select(f => (f[4] << 8) | f[5])];
}
