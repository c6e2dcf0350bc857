using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Simulation.Benches;

namespace Bench.Tests.Running;

// Whole runs in virtual time; each test tries to leave an output on, or to condemn a unit for what the bench did.
public class TestRunSafetyTests
{
    [Fact]
    public void Run_NotConfirmed_EnergisesNothing()
    {
        VirtualRun run = new(VirtualRun.Short) { Confirms = false };
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.NotConfirmed, record.Abort);
        Assert.DoesNotContain(record.Events, e => e.Text.EndsWith(": on", StringComparison.Ordinal));
        Assert.True(record.OutputsConfirmedOff);
        Assert.Empty(record.Moves);
    }

    // Whoever calls the runner, and whatever was confirmed: fluid past the seal may short the supply.
    [Fact]
    public void Run_InspectionForbidsEnergising_EnergisesNothing()
    {
        VirtualRun run = new(VirtualRun.Short) { Inspection = [new("drive-side", "wet")] };
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.InspectionForbids, record.Abort);
        Assert.Contains("(inspection item drive-side: wet)", record.AbortText, StringComparison.Ordinal);
        Assert.DoesNotContain(record.Events, e => e.Text.EndsWith(": on", StringComparison.Ordinal));
        Assert.True(record.OutputsConfirmedOff);
        Assert.Empty(record.Moves);
    }

    [Fact]
    public void Run_EmergencyStopInMidMove_AbortsAndIsOff()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e => AtFirst(run, e, "drive up: on", () => run.Bench.EmergencyStopAt(TimeSpan.FromMilliseconds(300)));
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.EmergencyStop, record.Abort);
        Assert.Null(record.Judgement);
        AssertOff(run, record);
    }

    [Fact]
    public void Run_CancelledInMidMove_IsOffAndKeepsWhatItHas()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e => AtFirst(run, e, "drive up: on", () =>
            run.Time.CreateTimer(_ => run.Cancel.Cancel(), null, TimeSpan.FromMilliseconds(400), Timeout.InfiniteTimeSpan));
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.Cancelled, record.Abort);
        AssertOff(run, record);
        Assert.True(record.Samples > 50);
        Assert.Equal(record.Samples, run.Journal.Samples.Count);
    }

    [Fact]
    public void Run_BoardSilentBeforeTheRun_IsABenchFaultAndNothingWasEnergised()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Bench.Silence("io");
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.BenchFault, record.Abort);
        Assert.StartsWith("the safe state can't be read back before the run, and nothing was energised", record.AbortText, StringComparison.Ordinal);
        Assert.True(run.OutputsAreOff);
    }

    [Fact]
    public void Run_BoardSilentForGoodInMidMove_SaysThatOffIsNotConfirmed()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e => AtFirst(run, e, "drive up: on", () =>
            run.Time.CreateTimer(_ => run.Bench.Silence("io"), null, TimeSpan.FromMilliseconds(300), Timeout.InfiniteTimeSpan));
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.OutputNotConfirmed, record.Abort);
        Assert.False(record.OutputsConfirmedOff);
        Assert.Null(record.Judgement);
        Assert.Contains("cut the supply with the emergency stop", record.AbortText, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_BoardSilentForASecondInMidMove_IsABenchFaultAndOff()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e => AtFirst(run, e, "drive up: on", () =>
        {
            run.Time.CreateTimer(_ => run.Bench.Silence("io"), null, TimeSpan.FromMilliseconds(300), Timeout.InfiniteTimeSpan);
            run.Time.CreateTimer(_ => run.Bench.Silence("io", silent: false), null, TimeSpan.FromMilliseconds(1300), Timeout.InfiniteTimeSpan);
        });
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.BenchFault, record.Abort);
        AssertOff(run, record);
    }

    [Fact]
    public void Run_LinkCutWhileSettling_IsABenchFaultAtOnce()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e => AfterFirstMove(run, e, () => run.Bench.Cut("bus"));
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.BenchFault, record.Abort);
        Assert.Empty(record.Moves);
        Assert.True(run.OutputsAreOff);
    }

    [Fact]
    public void Run_EmergencyStopWhileSettling_EnergisesNothingMore()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e => AfterFirstMove(run, e, run.Bench.PressEmergencyStop);
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.EmergencyStop, record.Abort);
        Assert.Single(record.Events, e => e.Text.EndsWith(": on", StringComparison.Ordinal));
        AssertOff(run, record);
    }

    [Fact]
    public void Run_BoardRestartsInMidMove_IsABenchFaultAndNotTheUnits()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e => AtFirst(run, e, "drive up: on", () =>
            run.Time.CreateTimer(_ => run.Bench.Restart("io"), null, TimeSpan.FromMilliseconds(300), Timeout.InfiniteTimeSpan));
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.BenchFault, record.Abort);
        Assert.StartsWith("the watchdog of io is no longer armed: the board has restarted", record.AbortText, StringComparison.Ordinal);
        AssertOff(run, record);
    }

    [Fact]
    public void Run_ContactWeldedInMidMove_SaysThatOffIsNotConfirmed()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e => AtFirst(run, e, "drive up: on", () =>
            run.Time.CreateTimer(_ => run.Bench.StickUp("position-1"), null, TimeSpan.FromMilliseconds(300), Timeout.InfiniteTimeSpan));
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.OutputNotConfirmed, record.Abort);
        Assert.False(record.OutputsConfirmedOff);
        Assert.Contains("A relay contact may be welded", record.AbortText, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_CurrentMeterDeadInMidMove_IsABenchFault()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e => AtFirst(run, e, "drive up: on", () =>
            run.Time.CreateTimer(_ => run.Bench.FailCurrentMeter("position-1", MeterFailure.Dead), null, TimeSpan.FromMilliseconds(400), Timeout.InfiniteTimeSpan));
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.BenchFault, record.Abort);
        Assert.StartsWith("the unit turns and the current meter shows nothing", record.AbortText, StringComparison.Ordinal);
        AssertOff(run, record);
    }

    // An open supply lets the unit coast unbraked for up to a quarter of a second: it turns, and no current flows.
    [Fact]
    public void Run_ConnectorOpensTheSupplyWhileTurning_IsNotTakenForADeadMeter() =>
        Assert.Empty(from seed in Enumerable.Range(1, 24)
                     let record = new VirtualRun(VirtualRun.Diverter, "intermittent-connector", (ulong)seed).Execute()
                     where record.Abort is not null
                     select $"seed {seed}: {record.AbortText}");

    [Theory]
    [InlineData(60)]
    [InlineData(100)]
    [InlineData(200)]
    [InlineData(400)]
    public void Run_WholeBusSilentForAWhileInMidMove_DoesNotBlameTheFeedback(int silentMs)
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e => AtFirst(run, e, "drive up: on", () =>
        {
            run.Time.CreateTimer(_ => Silence(run, true), null, TimeSpan.FromMilliseconds(300), Timeout.InfiniteTimeSpan);
            run.Time.CreateTimer(_ => Silence(run, false), null, TimeSpan.FromMilliseconds(300 + silentMs), Timeout.InfiniteTimeSpan);
        });
        RunRecord record = run.Execute();
        AssertNotCondemned(record, silentMs);
        AssertOff(run, record);
    }

    [Fact]
    public void Run_FeedbackSilentInMidMoveWhileBoardAnswers_SwitchesOffInTimeAndIsTheUnits()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e => AtFirst(run, e, "drive up: on", () =>
            run.Time.CreateTimer(_ => run.Bench.Silence("feedback-1"), null, TimeSpan.FromMilliseconds(300), Timeout.InfiniteTimeSpan));
        RunRecord record = run.Execute();
        Move move = Assert.Single(record.Moves);
        Assert.Equal(MoveEnd.FeedbackLost, move.End);

        // S4: 120 ms without a reading, one time-out of detection, one frame.
        Assert.InRange(move.DriveOffS - move.DriveOnS, 0.3, 0.3 + 0.120 + 0.040 + 0.020);
        AssertOff(run, record);
        Assert.Null(record.Abort);
    }

    [Fact]
    public void Run_OverCurrent_AbortsAndIsOff()
    {
        VirtualRun run = new(VirtualRun.Short with { Safety = VirtualRun.Short.Safety with { OverCurrentA = 0.1 } });
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.OverCurrent, record.Abort);
        Assert.Contains("exceeded the limit of 0.10 A", record.AbortText, StringComparison.Ordinal);
        AssertOff(run, record);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Run_ContactWeldedInMidMove_IsFoundThoughItReadsBackOff(bool up)
    {
        VirtualRun run = new(VirtualRun.Short);
        double weldedS = 0;
        run.Journal.OnEvent = e => AtFirst(run, e, "drive up: on", () =>
        {
            weldedS = e.TimeS;
            run.Weld(up);
        });
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.OutputNotConfirmed, record.Abort);
        Assert.False(record.OutputsConfirmedOff);
        Assert.Null(record.Judgement);
        Assert.StartsWith("the drive reads back off, but a current of 0.", record.AbortText, StringComparison.Ordinal);
        Assert.Contains("press the emergency stop now", record.AbortText, StringComparison.Ordinal);
        Assert.DoesNotContain(record.Events, e => e.TimeS > weldedS + 0.001 && e.Text.EndsWith(": on", StringComparison.Ordinal));

        // At most the coast that is allowed for, two meter readings, and a frame after the off command.
        double offS = record.Events.First(e => e.TimeS > weldedS && e.Text == "drive: off").TimeS;
        Assert.InRange(record.Events.First(e => e.Text.StartsWith("gate tripped", StringComparison.Ordinal)).TimeS - offS, 0.15, 0.25);
    }

    [Fact]
    public void Run_ContactWeldedAtTheLastOffOfARun_IsStillFound()
    {
        VirtualRun run = new(VirtualRun.Short with
        {
            Routine = [new Stage { Kind = StageKind.Homing, MostS = 20, Revolutions = 0, SettleMs = 0 }],
        });
        run.Journal.OnEvent = e => AtFirst(run, e, "drive up: on", () => run.Weld(up: true));
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.OutputNotConfirmed, record.Abort);
        Assert.False(record.OutputsConfirmedOff);
    }

    [Fact]
    public void Run_CancelledWithAContactWelded_SaysThatTheUnitIsDriven()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e => AtFirst(run, e, "drive up: on", () =>
        {
            run.Weld(up: true);
            run.After(300, run.Cancel.Cancel);
        });
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.OutputNotConfirmed, record.Abort);
        Assert.Contains("press the emergency stop now", record.AbortText, StringComparison.Ordinal);
    }

    // A relay contact that does not make looks like an open winding, and its coil reads as commanded.
    [Theory]
    [InlineData(0, true)]
    [InlineData(0, false)]
    [InlineData(3000, true)]
    [InlineData(3000, false)]
    public void Run_ContactDoesNotMake_IsNotTheUnits(double afterMs, bool up)
    {
        VirtualRun run = new(VirtualRun.Diverter);
        run.After(afterMs, () => run.Burn(up));
        RunRecord record = run.Execute();
        Assert.Equal(RunOutcome.Held, record.Outcome);
        Assert.Contains(record.Judgement!.Missing, m => m.Contains("no current", StringComparison.OrdinalIgnoreCase));
        AssertOff(run, record);
    }

    [Fact]
    public void Run_ContactWeldedBeforeTheRun_IsFoundBeforeAnythingIsEnergised()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Weld(up: true);
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.OutputNotConfirmed, record.Abort);
        Assert.False(record.OutputsConfirmedOff);
        Assert.DoesNotContain(record.Events, e => e.Text.EndsWith(": on", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(100)]
    [InlineData(300)]
    public void Run_SupplyGoneInMidMoveAndBack_EndsAndNeverMovesAgain(int outageMs)
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e => AtFirst(run, e, "drive up: on", () =>
        {
            run.After(300, () => run.Bench.CutSupply());
            run.After(300 + outageMs, () => run.Bench.CutSupply(false));
        });
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.BenchFault, record.Abort);
        Assert.StartsWith("the supply is gone (", record.AbortText, StringComparison.Ordinal);
        AssertEndedWithoutAnotherMove(run, record);
    }

    [Theory]
    [InlineData(100, false)]
    [InlineData(100, true)]
    [InlineData(200, false)]
    [InlineData(200, true)]
    [InlineData(1000, false)]
    [InlineData(1000, true)]
    public void Run_BoardLosesPowerInMidMoveAndComesBack_EndsAndNeverMovesAgain(int outageMs, bool outputsAsTheyWere)
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e => AtFirst(run, e, "drive up: on", () =>
        {
            run.After(300, () => run.Bench.LosePower("io"));
            run.After(300 + outageMs, () => run.Bench.RestorePower("io", outputsAsTheyWere));
        });
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.BenchFault, record.Abort);
        AssertEndedWithoutAnotherMove(run, record);
    }

    [Fact]
    public void Run_BoardRestartsBetweenMoves_BeginsNoOther()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e => AtFirst(run, e, "stage port-moves", () =>
        {
            run.Bench.LosePower("io");
            run.Bench.RestorePower("io");
        });
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.BenchFault, record.Abort);
        Assert.StartsWith("the watchdog of io is no longer armed: the board has restarted", record.AbortText, StringComparison.Ordinal);
        Assert.Single(record.Moves);
        AssertOff(run, record);
    }

    // Another master switches off ('bench safe' on a second connection), and the board answers throughout.
    [Fact]
    public void Run_OutputsDroppedBySomeoneElse_IsTheBenchesAndNotAnOpenWinding()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e => AtFirst(run, e, "drive up: on", () => run.After(300, () => run.Unit.CommandUp(false)));
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.BenchFault, record.Abort);
        Assert.StartsWith("the outputs read back off while up was commanded", record.AbortText, StringComparison.Ordinal);
        AssertEndedWithoutAnotherMove(run, record);
    }

    [Fact]
    public void Run_WatchdogCanNotBeArmed_IsABenchFaultAndNothingWasEnergised()
    {
        VirtualRun run = new(VirtualRun.Short) { WatchdogRegister = 9 };
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.BenchFault, record.Abort);
        Assert.StartsWith("the watchdog of io can't be armed", record.AbortText, StringComparison.Ordinal);
        Assert.DoesNotContain(record.Events, e => e.Text.EndsWith(": on", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_HealthyUnit_NeverRunsTheWatchdogOut()
    {
        VirtualRun run = new(VirtualRun.Short);
        RunRecord record = run.Execute();
        Assert.Null(record.Abort);
        Assert.Empty(run.Bench.TakeWatchdogDrops());
        int armed = record.Events.ToList().FindIndex(e => e.Text == "watchdog of io: armed with 1000 ms, read back");
        Assert.InRange(armed, 0, record.Events.ToList().FindIndex(e => e.Text.EndsWith(": on", StringComparison.Ordinal)) - 1);
    }

    // 2 A in 12 ohm heat a winding of 12 K/W and 20 s by some 31 K/s; from 40 to 110 °C that takes 2.3 s.
    [Fact]
    public void Run_MotorHeldStillWithoutAMotionLimit_IsStoppedByItsHeatInTime()
    {
        VirtualRun run = new(VirtualRun.Short with { Safety = VirtualRun.Short.Safety with { NoMotionMs = 8900 } }, "seized-motor");
        RunRecord record = run.Execute();
        Move move = record.Moves[0];
        Assert.Equal(MoveEnd.Stalled, move.End);
        Assert.InRange(move.DriveOffS - move.DriveOnS, 1.9, 2.6);
        Assert.Contains(record.Events, e => e.Text.StartsWith("the winding is estimated at 11", StringComparison.Ordinal));
        for (int i = 1; i < record.Moves.Count; i++)
        {
            Assert.True(record.Moves[i].DriveOnS - record.Moves[i - 1].DriveOffS > 0.2);
        }

        AssertOff(run, record);
    }

    [Fact]
    public void Run_HealthyUnit_NeverRestsForHeat()
    {
        VirtualRun with = new(VirtualRun.Short);
        VirtualRun without = new(VirtualRun.Short with { Safety = VirtualRun.Short.Safety with { Winding = null } });
        Assert.Equal(with.Execute().Moves, without.Execute().Moves);
    }

    [Fact]
    public void Run_SupplyOutOfTolerance_IsHeldAndNothingWasEnergised()
    {
        VirtualRun run = new(VirtualRun.Short, "low-bench-supply");
        RunRecord record = run.Execute();
        Assert.Equal(RunOutcome.Held, record.Outcome);
        Assert.Empty(record.Moves);
        Assert.DoesNotContain(record.Events, e => e.Text.EndsWith(": on", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_EveryOutputChange_IsInTheRecordBeforeAndAfter()
    {
        VirtualRun run = new(VirtualRun.Short);
        RunRecord record = run.Execute();
        RunEvent[] outputs = [.. record.Events.Where(e => e.Kind is RunEventKind.OutputCommand or RunEventKind.OutputResult)];
        Assert.True(outputs.Length >= 12);
        for (int i = 0; i < outputs.Length; i += 2)
        {
            Assert.Equal(RunEventKind.OutputCommand, outputs[i].Kind);
            Assert.Equal(RunEventKind.OutputResult, outputs[i + 1].Kind);
        }

        Assert.Equal(record.Events, run.Journal.Events);
    }

    [Fact]
    public void Run_DiskFullAtAnyWrite_IsOffAll()
    {
        VirtualRun clean = new(VirtualRun.Short);
        clean.Execute();
        for (int write = 1; write <= clean.Journal.Writes; write++)
        {
            VirtualRun run = new(VirtualRun.Short);
            run.Journal.RefusesFrom = write;
            Assert.Throws<JournalException>(() => run.Execute());
            Assert.True(run.OutputsAreOff, $"write {write}");
        }
    }

    [Fact]
    public void Run_OneRequestLostAnywhere_IsOffAndCondemnsNothing() => Sweep(forGood: false, step: 1, (run, record, at) =>
        {
            Assert.True(run.OutputsAreOff, $"request {at}");
            Assert.True(record.OutputsConfirmedOff, $"request {at}");
            AssertNotCondemned(record, at);
        });

    [Fact]
    public void Run_LinkDeadFromAnywhereOn_SaysWhetherItIsOffAndCondemnsNothing() => Sweep(forGood: true, step: 3, (run, record, at) =>
        {
            // The bench can't reach a relay over a dead link; it must say so, and never that it is off when it is on.
            Assert.True(run.OutputsAreOff || !record.OutputsConfirmedOff, $"request {at}");
            Assert.True(record.Abort is AbortReason.BenchFault or AbortReason.OutputNotConfirmed, $"request {at}: {record.Outcome} {record.Abort}");
            AssertNotCondemned(record, at);
        });

    private static void Sweep(bool forGood, int step, Action<VirtualRun, RunRecord, int> check)
    {
        BrokenLinks? clean = null;
        new VirtualRun(VirtualRun.Short).Execute(inner => clean = new BrokenLinks(inner, 0, forGood));
        for (int at = 1; at <= clean!.Requests; at += step)
        {
            VirtualRun run = new(VirtualRun.Short);
            RunRecord record = run.Execute(inner => new BrokenLinks(inner, at, forGood));
            check(run, record, at);
        }
    }

    private static void AssertNotCondemned(RunRecord record, int at) =>
        Assert.True(record.Judgement?.Disposition is null or Disposition.Reusable, $"request {at}: {record.Judgement?.Disposition}");

    private static void AssertOff(VirtualRun run, RunRecord record)
    {
        Assert.True(run.OutputsAreOff);
        Assert.True(record.OutputsConfirmedOff);
        Assert.Equal("drive: off, read back", record.Events.Last(e => e.Kind == RunEventKind.OutputResult).Text);
    }

    private static void Silence(VirtualRun run, bool silent)
    {
        run.Bench.Silence("io", silent);
        run.Bench.Silence("feedback-1", silent);
    }

    private static void AfterFirstMove(VirtualRun run, RunEvent entry, Action act)
    {
        bool moved = run.Journal.Events.Any(e => e.Text == "drive up: on");
        if (moved && entry.Text == "drive: off, read back")
        {
            run.Journal.OnEvent = null;
            run.Time.CreateTimer(_ => act(), null, TimeSpan.FromMilliseconds(50), Timeout.InfiniteTimeSpan);
        }
    }

    private static void AssertEndedWithoutAnotherMove(VirtualRun run, RunRecord record)
    {
        AssertOff(run, record);
        Assert.Null(record.Judgement);
        Assert.Single(record.Events, e => e.Text.EndsWith(": on", StringComparison.Ordinal));
        run.Time.Run(async () =>
        {
            await Task.Delay(TimeSpan.FromSeconds(1), run.Time);
            return 0;
        });
        Assert.Equal(0, run.Unit.MotorRadPerS);
    }

    private static void AtFirst(VirtualRun run, RunEvent entry, string text, Action act)
    {
        if (entry.Text == text)
        {
            run.Journal.OnEvent = null;
            act();
        }
    }
}
