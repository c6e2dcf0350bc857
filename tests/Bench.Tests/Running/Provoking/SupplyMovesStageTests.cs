using Bench.Model.BenchFiles;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Simulation.Benches;
using Bench.Tests.Model;

namespace Bench.Tests.Running.Provoking;

/// <summary>Moves at the least and the greatest supply; each test of an end tries to leave the supply at it.</summary>
public class SupplyMovesStageTests
{
    private const double NominalV = 24.0;
    private static readonly Profile Low = ProvokingProfile.With(StageKind.LowSupply);
    private static readonly Profile High = ProvokingProfile.With(StageKind.HighSupply);

    [Theory]
    [InlineData(StageKind.LowSupply, 20.40, 20.55)]
    [InlineData(StageKind.HighSupply, 28.60, 28.80)]
    public void Stage_HealthyUnit_TurnsAtThatSupplyAndPasses(StageKind kind, double leastV, double mostV)
    {
        VirtualRun run = Run(ProvokingProfile.With(kind));
        RunRecord record = run.Execute();

        ProvocationResult result = Assert.Single(record.Features!.Provocations!);
        Assert.Equal((kind, SequentialState.Shown, 0), (result.Stage, result.Test.State, result.Test.Failed));
        MoveFeatures[] made = [.. record.Features.Moves.Where(m => m.Stage == kind)];
        Assert.Equal(result.Test.Moves, made.Length);
        double sagV = 0.15;
        Assert.All(made, m => Assert.InRange(m.LoadedVoltageV!.Value, leastV - sagV, mostV));
        Assert.Equal(Disposition.Reusable, record.Judgement!.Disposition);
        AssertRestored(run, record);
    }

    // S9: each change of the supply is in the record before and after, with the drive off.
    [Fact]
    public void Stage_ChangesOfTheSupply_AreInTheRecordBeforeAndAfterWithTheDriveOff()
    {
        string[] events = [.. Run(Low).Execute().Events
            .Where(e => e.Kind is RunEventKind.OutputCommand or RunEventKind.OutputResult)
            .Select(e => e.Text)];
        int set = Array.IndexOf(events, "supply: 20.50 V");
        int restored = Array.IndexOf(events, "supply: voltage of the bench file", set);

        Assert.Equal("drive: off, read back", events[set - 1]);
        Assert.Equal("supply: 20.50 V, read back", events[set + 1]);
        Assert.Equal("drive: off, read back", events[restored - 1]);
        Assert.Equal("supply: voltage of the bench file, read back", events[restored + 1]);
        Assert.Contains(events[set..restored], e => e.EndsWith(": on", StringComparison.Ordinal));
        Assert.Equal(["supply: off", "supply: off, read back"], events[^2..]);
    }

    [Fact]
    public void Run_OfABenchWithASupply_LeavesNoEventOutOfTheJournal()
    {
        VirtualRun run = Run(Low);
        Assert.Equal(run.Execute().Events, run.Journal.Events);
    }

    // What goes back and off is tried for as long as what is silent: a panel that is locked for a moment, noise on the line.
    [Fact]
    public void Stage_SupplyRefusesForASecond_IsSetBackAndOffAllTheSame()
    {
        VirtualRun run = Run(Low);
        run.Journal.OnEvent = e =>
        {
            if (e.Text == "supply: 20.50 V, read back")
            {
                run.Bench.FailSupply("supply", SupplyFailure.Refuses);
                run.Cancel.Cancel();
                run.After(1000, () => run.Bench.FailSupply("supply", SupplyFailure.None));
            }
        };
        RunRecord record = run.Execute();

        Assert.Equal(AbortReason.Cancelled, record.Abort);
        AssertRestored(run, record);
    }

    // S9: also where it is not known what came of it.
    [Theory]
    [InlineData(SupplyFailure.Refuses, "supply: 20.50 V, not confirmed")]
    [InlineData(SupplyFailure.KeepsSetting, "supply: 20.50 V, not confirmed")]
    public void Stage_SupplyIsNotSet_SaysSoBeforeAnythingElseIsSwitched(SupplyFailure failure, string said)
    {
        VirtualRun run = Run(Low);
        run.Journal.OnEvent = e =>
        {
            if (e.Text == "supply: 20.50 V")
            {
                run.Bench.FailSupply("supply", failure);
            }
        };
        List<string> events = [.. run.Execute().Events.Where(e => e.Kind is RunEventKind.OutputCommand or RunEventKind.OutputResult).Select(e => e.Text)];

        Assert.Equal(said, events[events.IndexOf("supply: 20.50 V") + 1]);
    }

    // A burnt contact of the bench's relay looks like a motor circuit that opened, and reads back as commanded.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Stage_RelayContactBurnsInIt_HoldsTheUnitAndCondemnsNothing(bool bothWays)
    {
        VirtualRun run = Run(Low);
        run.Journal.OnEvent = e =>
        {
            if (e.Text == "supply: 20.50 V, read back")
            {
                run.Burn(up: true);
                if (bothWays)
                {
                    run.Burn(up: false);
                }
            }
        };
        RunRecord record = run.Execute();

        Assert.True(record.Features!.Provocations![0].Test.Failed > 0);
        Feature failed = record.Features.Features.Single(f => f.Name == ProvokedFeatures.FailedAtLowSupply);
        Assert.Null(failed.Value);
        Assert.Contains(bothWays ? "never after" : "Check the relay and the wire for rising counts", failed.NotAssessableBecause, StringComparison.Ordinal);
        Assert.Equal(RunOutcome.Held, record.Outcome);
    }

    [Fact]
    public void Stage_OfARun_LeavesWhatIsKnownOfTheUnitInUseAsItWas()
    {
        RunFeatures with = Run(Low).Execute().Features!;
        RunFeatures without = Run(Low with { Routine = [.. Low.Routine.Where(s => s.Kind != StageKind.LowSupply)] }).Execute().Features!;

        Assert.Equal(without.Demonstration.Path, with.Demonstration.Path);
        Assert.Equal(
            without.Features.Where(IsOfTheUnitInUse).Select(f => (f.Name, f.Value, f.StandardUncertainty, f.Observations)),
            with.Features.Where(IsOfTheUnitInUse).Select(f => (f.Name, f.Value, f.StandardUncertainty, f.Observations)));
    }

    public enum Ending { Cancelled, EmergencyStop, SupplyCut, SupplySilent, JournalFails, ContactWelded, BoardRestarts, LinkGone }

    public static TheoryData<StageKind, Ending, int> Ends => new(
        from kind in new[] { StageKind.LowSupply, StageKind.HighSupply }
        from end in Enum.GetValues<Ending>()
        from ms in new[] { 1, 900 }
        select (kind, end, ms));

    [Theory]
    [MemberData(nameof(Ends))]
    public void Stage_EndedInItsMidst_LeavesTheSupplyAtNominalOrOff(StageKind kind, Ending end, int afterMs)
    {
        VirtualRun run = Run(ProvokingProfile.With(kind));
        bool begun = false;
        run.Journal.OnEvent = e =>
        {
            if (begun || e.Kind != RunEventKind.OutputCommand || !e.Text.StartsWith("supply: 2", StringComparison.Ordinal))
            {
                return;
            }

            begun = true;
            run.After(afterMs, () => Act(run, end));
        };
        try
        {
            RunRecord record = run.Execute();
            Assert.True(begun);
            // A board that restarts at rest has let go of nothing.
            Assert.True(record.Abort is not null || end == Ending.BoardRestarts);
        }
        catch (JournalException)
        {
            Assert.Equal(Ending.JournalFails, end);
        }

        Assert.True(run.OutputsAreOff);
        Assert.InRange(run.Unit.SupplyShare * NominalV, 0, Low.Electrical.SupplyMaxV);

        // A supply that no longer hears stays on as it is; every other is off and at its own voltage again.
        if (end is not (Ending.SupplySilent or Ending.LinkGone))
        {
            Assert.False(run.Unit.SupplyConnected);
            Assert.Equal(1.0, run.Unit.SupplyShare, 3);
        }
    }

    [Fact]
    public void Stage_SupplyDoesNotSayThatItIsSet_MovesNothingAndEndsAsBenchFault()
    {
        VirtualRun run = Run(Low);
        run.Journal.OnEvent = e =>
        {
            if (e.Text == "supply: 20.50 V")
            {
                run.Bench.Silence("supply");
                run.After(500, () => run.Bench.Silence("supply", false));
            }
        };
        RunRecord record = run.Execute();

        Assert.Equal(AbortReason.BenchFault, record.Abort);
        Assert.StartsWith("the supply could not be set: ", record.AbortText, StringComparison.Ordinal);
        Assert.DoesNotContain(record.Moves, m => m.Stage == StageKind.LowSupply);
        AssertRestored(run, record);
    }

    [Fact]
    public void Stage_MeterDoesNotShowTheVoltage_MovesNothingAndEndsAsBenchFault()
    {
        VirtualRun run = Run(Low);
        run.Journal.OnEvent = e =>
        {
            if (e.Text == "supply: 20.50 V, read back")
            {
                run.Bench.CutSupply();
            }
        };
        RunRecord record = run.Execute();

        Assert.Equal(AbortReason.BenchFault, record.Abort);
        Assert.StartsWith("the supply was set to 20.5 V and the meter shows ", record.AbortText, StringComparison.Ordinal);
        Assert.DoesNotContain(record.Moves, m => m.Stage == StageKind.LowSupply);
    }

    [Fact]
    public void Stage_SupplySetByHand_IsLeftOutAndSaidSo()
    {
        RunRecord record = new VirtualRun(Low).Execute();

        Assert.DoesNotContain(record.Moves, m => m.Stage == StageKind.LowSupply);
        Assert.Contains(record.Events, e => e.Text == "stage low-supply is left out: the supply is set by hand");
        Assert.Equal(RunOutcome.Judged, record.Outcome);
    }

    [Theory]
    [InlineData("lowest_v = 18.0", "lowest_v = 21.0", "20.5 V is asked for, and the bench file allows the supply 21.0 to 30.0 V")]
    [InlineData(", lowest_v = 18.0, highest_v = 30.0", "", "the bench file does not say which voltages the supply may be set to")]
    public void Stage_SupplyThatMayNotBeSetSoFar_IsLeftOutAndSaidSo(string part, string by, string because)
    {
        BenchFile file = BenchFileReader.Read(
            RepositoryFiles.Text("fixtures/benches/programmable-supply.toml").Replace(part, by, StringComparison.Ordinal), "bench.toml");
        RunRecord record = new VirtualRun(Low, "healthy", 1, file).Execute();

        Assert.DoesNotContain(record.Moves, m => m.Stage == StageKind.LowSupply);
        Assert.Contains(record.Events, e => e.Text == $"stage low-supply is left out: {because}");
        Assert.DoesNotContain(record.Events, e => e.Text.StartsWith("supply: 2", StringComparison.Ordinal));
    }

    // Two units by their bench file: the profile's whole endurance at nominal supply, and the stage after it.
    [Theory]
    [InlineData(StageKind.LowSupply, "sticking-seal")]
    [InlineData(StageKind.HighSupply, "weak-regulator")]
    public void Stage_UnitThatOnlyFailsThere_IsFoundByItAndByNothingElse(StageKind kind, string condition)
    {
        Profile profile = ProvokingProfile.With(kind);
        RunRecord[] records = [.. Enumerable.Range(1, 12).Select(seed => Run(profile, condition, (ulong)seed).Execute())];

        Assert.All(records, r => Assert.Equal((0, SequentialState.Shown), (r.Features!.Demonstration.Failed, r.Features.Demonstration.State)));
        int found = records.Count(r => r.Features!.Provocations is [{ Test.State: SequentialState.Refuted }]);
        Assert.InRange(found, 11, 12);
        Assert.All(records.Where(r => r.Features!.Provocations![0].Test.Failed > 0), r => Assert.Contains(
            r.Judgement!.Findings, f => f.Feature.Name == ProvokedFeatures.Of(kind) && f.Decision == FindingDecision.DoesNotConform));
    }

    // C9: at nominal supply alone current and speed stand in one proportion; a second voltage tells resistance from back-EMF.
    [Fact]
    public void Stage_ProfileNamesMotorConstants_GivesThemTheirSecondVoltage()
    {
        Limit named = new() { Feature = "motor.resistance_ohm", Upper = 16, Rule = DecisionRule.Guarded, Severity = Severity.Note };
        Feature Fitted(Profile profile) => Run(profile with { Limits = [.. profile.Limits, named] }).Execute()
            .Features!.Features.Single(f => f.Name == "motor.resistance_ohm");

        Assert.Null(Fitted(Low with { Routine = [.. Low.Routine.Where(s => s.Kind != StageKind.LowSupply)] }).Value);
        Assert.InRange(Fitted(Low).Value!.Value, 10.0, 14.5);
    }

    // The type's torque constant hides 1.5 ohm of 24, in every move alike; at another voltage the unit's own is measured.
    [Theory]
    [InlineData(false, RunOutcome.Held)]
    [InlineData(true, RunOutcome.Judged)]
    public void Stage_ResistanceTooCloseToItsLimit_IsDecidedByASecondVoltage(bool settable, RunOutcome expected)
    {
        BenchFile file = BenchFileReader.Read(
            StandardBench.OnSerialPort("/dev/ttyUSB0", [VirtualRun.Selector.Drive], new DateOnly(2026, 3, 1), supply: settable), "bench.toml");
        RunRecord record = new VirtualRun(VirtualRun.Selector, "contact-resistance", 14, file) { Symptom = Symptom.Constant }.Execute();

        Assert.Equal(expected, record.Outcome);
        Assert.Equal(settable, record.Moves.Any(m => m.Stage == StageKind.LowSupply));
        Feature ohm = record.Features!.Features.Single(f => f.Name == "winding.resistance_ohm");
        Assert.InRange(ohm.StandardUncertainty!.Value, settable ? 0.5 : 1.3, settable ? 1.3 : 2.0);
        if (settable)
        {
            Assert.Equal(Disposition.Repairable, record.Judgement!.Disposition);
            Assert.Contains(record.Events, e => e.Text.EndsWith("it lies too close to its limit to decide", StringComparison.Ordinal));
        }
    }

    // A sound winding that is warm measures more than cold; how much warmer it is nobody knows, so it is not condemned for that.
    [Fact]
    public void Stage_ResistanceOfAWarmWinding_HasItsWarmthInItsUncertainty()
    {
        RunRecord record = Run(Low).Execute();
        Feature ohm = record.Features!.Features.Single(f => f.Name == "winding.resistance_ohm");

        // 12 ohm of copper, 20 K either way, rectangular: 12/255 x 20/1.73 = 0.54 ohm at least.
        Assert.InRange(ohm.StandardUncertainty!.Value, 0.54, 1.1);
    }

    // A second voltage is there to make the resistance better known.
    private static bool IsOfTheUnitInUse(Feature feature) =>
        ProvokingProfile.IsOfTheUnitInUse(feature) && feature.Name != "winding.resistance_ohm";

    private static VirtualRun Run(Profile profile, string condition = "healthy", ulong seed = 1) => new(profile, condition, seed, VirtualRun.Powered);

    private static void Act(VirtualRun run, Ending end)
    {
        switch (end)
        {
            case Ending.Cancelled:
                run.Cancel.Cancel();
                break;
            case Ending.EmergencyStop:
                run.Bench.PressEmergencyStop();
                break;
            case Ending.SupplyCut:
                run.Bench.CutSupply();
                break;
            case Ending.SupplySilent:
                run.Bench.Silence("supply");
                break;
            case Ending.JournalFails:
                run.Journal.RefusesFrom = 1;
                break;
            case Ending.ContactWelded:
                run.Weld(up: true);
                run.Weld(up: false);
                run.Bench.StickDown("only", false);
                break;
            case Ending.BoardRestarts:
                run.Bench.LosePower("io");
                run.After(400, () => run.Bench.RestorePower("io"));
                break;
            case Ending.LinkGone:
                run.Bench.Hide("supply-line");
                run.Bench.Cut("supply-line");
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(end));
        }
    }

    private static void AssertRestored(VirtualRun run, RunRecord record)
    {
        Assert.True(record.OutputsConfirmedOff);
        Assert.True(run.OutputsAreOff);
        Assert.False(run.Unit.SupplyConnected);
        Assert.Equal(1.0, run.Unit.SupplyShare, 3);
    }
}
