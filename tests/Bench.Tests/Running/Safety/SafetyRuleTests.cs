using System.Text.RegularExpressions;
using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Tests.Model;

namespace Bench.Tests.Running.Safety;

/// <summary>
/// The rules S1 to S10 of docs/design.md, section 7, one by one. Where a rule has a whole file of tests, the one here is
/// its plainest: S2, S3, S4, S7, S8 in SafetyGateTests and RelayDriveTests, S4 to S6 in TestRunSafetyTests, S10 and the
/// kill of S6 in tests/campaigns, with processes.
/// </summary>
public partial class SafetyRuleTests
{
    [Fact]
    public void S1_OnlyTheGateMakesPermits()
    {
        string[] makers = [.. Directory.EnumerateFiles(Path.Combine(RepositoryFiles.Root, "src"), "*.cs", SearchOption.AllDirectories)
            .Where(path => MakesPermit().IsMatch(File.ReadAllText(path)))
            .Select(path => Path.GetFileName(path))];
        Assert.Equal(["SafetyGate.cs"], makers);
        Assert.Empty(typeof(DrivePermit).GetConstructors());
    }

    [Fact]
    public void S2_WholeRunThatReverses_HasTheDeadTimeBetweenOffAndOn()
    {
        (RunRecord record, _) = Whole();
        double deadS = record.Start.Profile.Safety.DeadTimeMs / 1000;
        double offS = double.NegativeInfinity;
        bool on = false;
        foreach (RunEvent e in record.Events)
        {
            if (e.Text.EndsWith(": on", StringComparison.Ordinal))
            {
                Assert.False(on);
                Assert.True(e.TimeS - offS >= deadS - 1e-6);
                on = true;
            }
            else if (e.Text == "drive: off, read back")
            {
                (on, offS) = (false, e.TimeS);
            }
        }
    }

    [Fact]
    public void S3_WholeRun_ReadsTheSafeStateAndIsConfirmedBeforeItEnergises() => AssertOrder(
        Whole().Record, "drive: off, read back", "cautions and wiring confirmed for unit GH-1", "drive up: on");

    [Fact]
    public void S4_EmergencyStopInMidMove_CommandsOffWithinAPollPeriodAndAFrame()
    {
        VirtualRun run = new(VirtualRun.Short);
        double pressedS = 0;
        run.Journal.OnEvent = e =>
        {
            if (e.Text == "drive up: on" && pressedS == 0)
            {
                pressedS = e.TimeS + 0.4;
                run.After(400, run.Bench.PressEmergencyStop);
            }
        };
        RunRecord record = run.Execute();

        // Inputs are read every third slot, some 22 ms; one frame more.
        double offS = record.Events.First(e => e.TimeS > pressedS && e.Text == "drive: off").TimeS;
        Assert.InRange(offS - pressedS, 0, 0.035);
    }

    [Fact]
    public void S5_WholeRun_BeginsAndEndsWithOffReadBack()
    {
        RunRecord record = Whole().Record;
        string[] results = [.. record.Events.Where(e => e.Kind == RunEventKind.OutputResult).Select(e => e.Text)];
        Assert.Equal("drive: off, read back", results[0]);
        Assert.Equal("drive: off, read back", results[^1]);
    }

    [Fact]
    public void S6_WholeRun_ArmsTheWatchdogBeforeItEnergises() => AssertOrder(
        Whole().Record, "watchdog of io: armed with 1000 ms, read back", "drive up: on");

    [Fact]
    public void S7_WholeRun_KeepsOnTimeAndDuty()
    {
        (RunRecord record, _) = Whole();
        SafetyLimits limits = record.Start.Profile.Safety;
        Assert.All(record.Moves, m => Assert.True(m.DriveOffS - m.DriveOnS <= limits.MostOnMs / 1000));
        double on = record.Moves.Sum(m => m.DriveOffS - m.DriveOnS);
        Assert.True(on <= limits.MostDuty * Math.Max(limits.DutyWindowS, record.Moves[^1].DriveOffS));
    }

    [Fact]
    public void S8_EveryRequestLostAfterTheFirstCommand_EnergisesAtMostOnce()
    {
        BrokenLinks? links = null;
        VirtualRun run = new(VirtualRun.Short);
        RunRecord clean = run.Execute(inner => links = new BrokenLinks(inner, 0, forGood: false));
        Assert.NotEmpty(clean.Moves);
        int last = links!.Requests;
        for (int at = 5; at < last; at += Math.Max(1, last / 40))
        {
            VirtualRun broken = new(VirtualRun.Short);
            RunRecord record = broken.Execute(inner => new BrokenLinks(inner, at, forGood: false));

            // Every command in the record has an answer or a fault of its own before the next: none was repeated unseen.
            string[] texts = [.. record.Events.Select(e => e.Text)];
            for (int i = 0; i + 1 < texts.Length; i++)
            {
                Assert.False(texts[i].EndsWith(": on", StringComparison.Ordinal) && texts[i + 1].EndsWith(": on", StringComparison.Ordinal), $"request {at}");
            }
        }
    }

    [Fact]
    public void S9_WholeRun_HasEveryOutputChangeBeforeAndAfter()
    {
        RunEventKind[] kinds = [.. Whole().Record.Events.Select(e => e.Kind).Where(k => k is RunEventKind.OutputCommand or RunEventKind.OutputResult)];
        Assert.Equal(kinds.Select((_, i) => i % 2 == 0 ? RunEventKind.OutputCommand : RunEventKind.OutputResult), kinds);
    }

    // Two masters, as over TCP: what one switches off stays off, and the other's run ends and says why.
    [Fact]
    public void S10_SwitchedOffByAnotherInMidMove_StaysOff()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Journal.OnEvent = e =>
        {
            if (e.Text == "drive up: on")
            {
                run.After(300, () => run.Unit.CommandUp(false));
            }
        };
        RunRecord record = run.Execute();
        Assert.Equal(AbortReason.BenchFault, record.Abort);
        Assert.Single(record.Events, e => e.Text.EndsWith(": on", StringComparison.Ordinal));
        Assert.True(run.OutputsAreOff);
    }

    private static (RunRecord Record, VirtualRun Run) Whole()
    {
        VirtualRun run = new(VirtualRun.Short);
        RunRecord record = run.Execute();
        Assert.Null(record.Abort);
        return (record, run);
    }

    private static void AssertOrder(RunRecord record, params string[] texts)
    {
        List<string> all = [.. record.Events.Select(e => e.Text)];
        int[] places = [.. texts.Select(t => all.IndexOf(t))];
        Assert.All(places, p => Assert.True(p >= 0));
        Assert.Equal(places.Order(), places);
    }

    [GeneratedRegex(@"new DrivePermit\(")]
    private static partial Regex MakesPermit();
}
