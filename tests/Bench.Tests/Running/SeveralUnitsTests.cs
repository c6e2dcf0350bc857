using Bench.Model.BenchFiles;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Simulation.Benches;
using Bench.Tests.Model;

namespace Bench.Tests.Running;

/// <summary>Several units at once on one bench: each gets its own verdict, and what befalls one is not the others' fault.</summary>
public class SeveralUnitsTests
{
    [Fact]
    public void Runs_FourUnitsOfTwoFamiliesOnOneBus_AreEachJudgedRight()
    {
        SeveralRuns runs = new(
            SeveralRuns.OnOneBus(115200, VirtualRun.Diverter, VirtualRun.Diverter, VirtualRun.Selector, VirtualRun.Diverter),
            (VirtualRun.Diverter, "healthy"), (VirtualRun.Diverter, "coupling-slip"), (VirtualRun.Selector, "seized-valve"), (VirtualRun.Diverter, "dead-sensors"));
        RunRecord[] records = runs.Execute();

        Assert.Equal(
            [Disposition.Reusable, Disposition.Repairable, Disposition.Scrap, Disposition.Repairable],
            records.Select(r => r.Judgement?.Disposition));
        Assert.Equal(["coupling-slip", "seized-valve", "dead-sensors"], records.Skip(1).Select(r => r.Judgement!.Causes[0].Id));
        Assert.All(records, r => Assert.True(r.OutputsConfirmedOff));
        Assert.True(runs.OutputsAreOff);

        // No cross-talk: each record holds its own serial, its own samples and its own events.
        Assert.Equal(["GH-position-1", "GH-position-2", "GH-position-3", "GH-position-4"], records.Select(r => r.Start.Return.Serial));
        Assert.All(records.Zip(runs.Journals), p =>
        {
            Assert.Equal(p.First.Samples, p.Second.Samples.Count);
            Assert.Equal(p.First.Events, p.Second.Events);
            string[] confirmed = [.. p.First.Events.Where(e => e.Kind == RunEventKind.Confirmation).Select(e => e.Text)];
            Assert.EndsWith(p.First.Start.Return.Serial, Assert.Single(confirmed), StringComparison.Ordinal);
        });
    }

    [Theory]
    [InlineData(38400)]
    [InlineData(9600)]
    public void Runs_HealthyUnitsOnASlowBus_AreNeverCondemnedAndSayWhatTheBusHeld(int baud)
    {
        SeveralRuns runs = new(
            SeveralRuns.OnOneBus(baud, VirtualRun.Diverter, VirtualRun.Diverter, VirtualRun.Diverter),
            (VirtualRun.Diverter, "healthy"), (VirtualRun.Diverter, "healthy"), (VirtualRun.Diverter, "healthy"));
        foreach (RunRecord record in runs.Execute())
        {
            Assert.True(
                record.Abort is null or AbortReason.BenchFault && record.Judgement?.Disposition is null or Disposition.Reusable,
                $"{record.Outcome} {record.Judgement?.Disposition} {record.AbortText}: {string.Join(" ", record.Judgement?.Reasons ?? [])}");
            Assert.True(record.OutputsConfirmedOff);
            if (record.Judgement is { Disposition: Disposition.Reusable })
            {
                Assert.True(record.Features!.Ring.Coverage >= VirtualRun.Diverter.Demonstration.RingCoverage);
            }

            Assert.True(record.Features?.PositionRateHz is null or > 0 and < 40, $"{record.Features?.PositionRateHz}");
        }
    }

    [Fact]
    public void Runs_Cancelled_AllEndConfirmedOff()
    {
        SeveralRuns runs = Short("healthy", "healthy");
        runs.After(4000, runs.Cancel.Cancel);
        Assert.All(runs.Execute(), r =>
        {
            Assert.Equal(AbortReason.Cancelled, r.Abort);
            Assert.True(r.OutputsConfirmedOff);
        });
        Assert.True(runs.OutputsAreOff);
    }

    [Fact]
    public void Runs_ContactWeldedAtOnePosition_EndsThatRunAndNoOther()
    {
        SeveralRuns runs = Short("healthy", "healthy");
        runs.Journals[0].OnEvent = Once("drive up: on", () => runs.After(300, () => runs.Bench.StickUp("position-1")));
        RunRecord[] records = runs.Execute();
        Assert.Equal(AbortReason.OutputNotConfirmed, records[0].Abort);
        Assert.Null(records[1].Abort);
        Assert.Equal(3, records[1].Moves.Count);
    }

    [Fact]
    public void Runs_SharedSupply_IsOnWithTheFirstAndOffAfterTheLast()
    {
        SeveralRuns runs = new(TwoOnOneSupply(), (VirtualRun.Short, "healthy"), (VirtualRun.Short, "seized-motor"));
        RunRecord[] records = runs.Execute(powered: true);
        Assert.All(records, r => Assert.Null(r.Abort));
        string[] ends = [.. records.Select(r => r.Events.Last(e => e.Text.StartsWith("supply:", StringComparison.Ordinal)).Text)];
        Assert.Equal(["supply: left on for the units still being tested", "supply: off, read back"], ends.Order());
        Assert.False(runs.Bench.Unit("only").SupplyConnected);
    }

    [Fact]
    public void Runs_OneCannotConfirmOff_TakesTheSupplyFromAll()
    {
        SeveralRuns runs = new(TwoOnOneSupply(), (VirtualRun.Short, "healthy"), (VirtualRun.Short, "healthy"));
        runs.Journals[0].OnEvent = Once("drive up: on", () => runs.After(300, () => runs.Bench.StickUp("only")));
        RunRecord[] records = runs.Execute(powered: true);
        Assert.Equal(AbortReason.OutputNotConfirmed, records[0].Abort);
        Assert.Contains(records[0].Events, e => e.Text == "supply: off, read back");
        Assert.Equal(AbortReason.BenchFault, records[1].Abort);
        Assert.Contains("the supply is gone", records[1].AbortText, StringComparison.Ordinal);
        Assert.True(records[1].OutputsConfirmedOff);
        Assert.False(runs.Bench.Unit("only").SupplyConnected);
    }

    private static Action<RunEvent> Once(string text, Action act)
    {
        bool done = false;
        return e =>
        {
            if (!done && e.Text == text)
            {
                done = true;
                act();
            }
        };
    }

    private static SeveralRuns Short(params string[] conditions) => new(
        SeveralRuns.OnOneBus(115200, [.. conditions.Select(_ => VirtualRun.Short)]), [.. conditions.Select(c => (VirtualRun.Short, c))]);

    // The fixture's bench with a second position: a current meter on the board, the voltage as the supply that feeds both says.
    private static BenchFile TwoOnOneSupply()
    {
        string one = RepositoryFiles.Text("fixtures/benches/programmable-supply.toml");
        string standard = StandardBench.OnSerialPort("/dev/ttyUSB0", [DriveKind.Reversing, DriveKind.Reversing], new DateOnly(2026, 3, 1));
        string second = standard[standard.LastIndexOf("[[position]]", StringComparison.Ordinal)..standard.LastIndexOf("[position.voltage]", StringComparison.Ordinal)]
            .Replace("input_register = 4", "input_register = 5", StringComparison.Ordinal)
            + one[one.LastIndexOf("[position.voltage]", StringComparison.Ordinal)..];
        return BenchFileReader.Read(
            $"{one}\n[[device]]\nname = \"feedback-2\"\nlink = \"bus\"\naddress = 12\ntimeout_ms = 40\n\n{second}", "bench.toml");
    }
}
