using Bench.Model.Judging;
using Bench.Model.Runs;

namespace Bench.Tests.Running.Hands;

// A silent feedback is tried again after its connector was reseated: a plug that was not home is the bench's wiring.
public class ConnectorReseatTests
{
    private const string Feedback = "feedback-1";

    [Fact]
    public void FeedbackSilentForGood_IsAskedForOnceAndThenTheUnits()
    {
        VirtualRun run = Dying();
        RunRecord record = run.Execute();
        Assert.Equal(1, run.Asked);
        Assert.True(record.Judgement?.Disposition == Disposition.Repairable, string.Join("; ", record.Judgement?.Reasons ?? [record.AbortText ?? ""]));
        Assert.Contains(record.Events, e => e.Text == "the feedback connector was reseated");
    }

    [Fact]
    public void FeedbackAnswersAfterReseating_TheRunGoesOn()
    {
        VirtualRun run = Dying();
        run.Reseats = r =>
        {
            r.Bench.Silence(Feedback, false);
            return true;
        };
        RunRecord record = run.Execute();
        Assert.Null(record.Abort);
        Assert.True(record.Moves.Count > 1);
        Assert.Equal(0, record.Features!.Features.Single(f => f.Name == "feedback.dropouts").Value);
        Assert.Equal(0, record.Features.Demonstration.Failed);
    }

    [Fact]
    public void FeedbackSilentAndNobodyReseats_IsHeldAndNotTheUnits()
    {
        VirtualRun run = Dying();
        run.Reseats = _ => false;
        RunRecord record = run.Execute();
        Assert.Equal(RunOutcome.Held, record.Outcome);
        Assert.Contains(record.Judgement!.Missing, m => m.Contains("its connector was not reseated", StringComparison.Ordinal));
    }

    [Fact]
    public void WhileAPersonReseats_TheGateIsClosedAndIsConfirmedAnewBeforeItMoves()
    {
        VirtualRun run = Dying();
        run.Reseats = r =>
        {
            r.Bench.Silence(Feedback, false);
            return true;
        };
        List<string> events = [.. run.Execute().Events.Select(e => e.Text)];
        int closed = events.FindIndex(e => e.StartsWith("gate closed", StringComparison.Ordinal));
        int off = events.FindIndex(closed, e => e == "drive: off, read back");
        int confirmed = events.FindIndex(off, e => e.StartsWith("cautions and wiring confirmed", StringComparison.Ordinal));
        int on = events.FindIndex(closed, e => e.EndsWith(": on", StringComparison.Ordinal));
        Assert.True(closed > 0 && off > closed && confirmed > off && on > confirmed, string.Join("; ", events));
    }

    [Fact]
    public void EmergencyStopWhileAPersonReseats_Aborts()
    {
        VirtualRun run = Dying();
        run.Journal.OnEvent = e =>
        {
            if (e.Text.StartsWith("gate closed", StringComparison.Ordinal))
            {
                run.After(1000, () => run.Bench.PressEmergencyStop());
            }
        };
        Assert.Equal(AbortReason.EmergencyStop, run.Execute().Abort);
    }

    [Fact]
    public void BoardGoneWhileAPersonReseats_IsABenchFault()
    {
        VirtualRun run = Dying();
        run.Reseats = r =>
        {
            r.Bench.Silence("io");
            return true;
        };
        RunRecord record = run.Execute();
        Assert.True(record.Abort is AbortReason.BenchFault or AbortReason.OutputNotConfirmed, $"{record.Abort}: {record.AbortText}");
    }

    [Fact]
    public void FeedbackSilentFromTheStart_IsReseatedBeforeAnythingMoves()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Bench.Silence(Feedback);
        run.Reseats = r =>
        {
            r.Bench.Silence(Feedback, false);
            return true;
        };
        RunRecord record = run.Execute();
        Assert.Equal(1, run.Asked);
        Assert.NotEmpty(record.Moves);
    }

    private static VirtualRun Dying()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.After(1000, () => run.Bench.Silence(Feedback));
        return run;
    }
}
