using System.Text.RegularExpressions;
using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Simulation.Benches;

namespace Bench.Tests.Running;

/// <summary>A port that vanishes in the middle of a move and comes back: off reaches the board, and nothing else does.</summary>
public class ReturningPortTests
{
    private static readonly DateOnly Calibrated = new(2026, 3, 1);

    [Theory]
    [InlineData(5)]
    [InlineData(150)]
    [InlineData(1500)]
    public void Run_PortVanishesInMidMoveAndReturns_IsABenchFaultAndConfirmedOff(double goneMs)
    {
        SeveralRuns runs = new(SeveralRuns.OnOneBus(115200, VirtualRun.Short), (VirtualRun.Short, "healthy"));
        Vanish(runs, 0, "bus", 300, goneMs);
        RunRecord record = Assert.Single(runs.Execute());
        HoldsEndedByTheLink(record, "bus");
        Assert.True(record.OutputsConfirmedOff);
        Assert.True(runs.OutputsAreOff);
        Assert.Single(record.Events, e => e.Text.EndsWith(": on", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_PortVanishesForLongerThanOffIsTriedFor_SaysThatOffIsNotConfirmed()
    {
        SeveralRuns runs = new(SeveralRuns.OnOneBus(115200, VirtualRun.Short), (VirtualRun.Short, "healthy"));
        Vanish(runs, 0, "bus", 300, 10_000);
        RunRecord record = Assert.Single(runs.Execute());
        Assert.Equal(AbortReason.OutputNotConfirmed, record.Abort);
        Assert.Null(record.Judgement);
    }

    [Fact]
    public void Run_ConnectionResetInMidMove_IsABenchFaultAndConfirmedOff()
    {
        BenchFile file = BenchFileReader.Read(StandardBench.OnTcpPort("localhost", 502, [DriveKind.Reversing], Calibrated), "bench.toml");
        SeveralRuns runs = new(file, (VirtualRun.Short, "healthy"));
        Vanish(runs, 0, "bus", 300, goneMs: 0);
        RunRecord record = Assert.Single(runs.Execute());
        HoldsEndedByTheLink(record, "bus");
        Assert.True(record.OutputsConfirmedOff);
        Assert.True(runs.OutputsAreOff);
    }

    [Fact]
    public void Run_OneOfTwoPortsVanishes_LeavesTheOtherUnitAlone()
    {
        SeveralRuns runs = new(OnTwoPorts(), (VirtualRun.Short, "healthy"), (VirtualRun.Short, "healthy"));
        Vanish(runs, 1, "bus-2", 300, 600);
        RunRecord[] records = runs.Execute();
        Assert.Null(records[0].Abort);
        Assert.Equal(3, records[0].Moves.Count);
        HoldsEndedByTheLink(records[1], "bus-2");
        Assert.All(records, r => Assert.True(r.OutputsConfirmedOff));
        Assert.True(runs.OutputsAreOff);
    }

    [Fact]
    public void Run_FeedbacksOwnPortVanishes_NeverCondemnsTheUnit()
    {
        // Where only the unit's feedback hangs on the port, its silence looks like the unit's own.
        string text = StandardBench.OnSerialPort("/dev/ttyUSB0", [DriveKind.Reversing], Calibrated)
            + "\n[[link]]\nname = \"unit\"\nkind = \"serial\"\nprotocol = \"modbus-rtu\"\nport = \"/dev/ttyUSB1\"\nbaud = 115200\n";
        text = Regex.Replace(text, "(name = \"feedback-1\"\\s+link = )\"bus\"", "$1\"unit\"");
        SeveralRuns runs = new(BenchFileReader.Read(text, "bench.toml"), (VirtualRun.Short, "healthy"));
        Vanish(runs, 0, "unit", 300, 20_000);
        RunRecord record = Assert.Single(runs.Execute());
        HoldsEndedByTheLink(record, "unit");
        Assert.True(record.OutputsConfirmedOff);
    }

    private static void HoldsEndedByTheLink(RunRecord record, string link)
    {
        Assert.Equal(AbortReason.BenchFault, record.Abort);
        Assert.Null(record.Judgement);
        Assert.Contains($"the link '{link}' went away", record.AbortText, StringComparison.Ordinal);
    }

    // Counted from the command of the first move.
    private static void Vanish(SeveralRuns runs, int run, string link, double afterMs, double goneMs)
    {
        bool set = false;
        runs.Journals[run].OnEvent = e =>
        {
            if (!set && e.Text == "drive up: on")
            {
                set = true;
                runs.After(afterMs, () =>
                {
                    runs.Bench.Hide(link, goneMs > 0);
                    runs.Bench.Cut(link);
                });
                runs.After(afterMs + goneMs, () => runs.Bench.Hide(link, hidden: false));
            }
        };
    }

    private static BenchFile OnTwoPorts()
    {
        string one = StandardBench.OnSerialPort("/dev/ttyUSB0", [DriveKind.Reversing], Calibrated);
        string other = one[one.IndexOf("[[link]]", StringComparison.Ordinal)..]
            .Replace("\"bus\"", "\"bus-2\"", StringComparison.Ordinal)
            .Replace("ttyUSB0", "ttyUSB1", StringComparison.Ordinal)
            .Replace("\"io\"", "\"io-2\"", StringComparison.Ordinal)
            .Replace("\"feedback-1\"", "\"feedback-2\"", StringComparison.Ordinal)
            .Replace("\"position-1\"", "\"position-2\"", StringComparison.Ordinal);
        return BenchFileReader.Read(one + "\n" + other, "bench.toml");
    }
}
