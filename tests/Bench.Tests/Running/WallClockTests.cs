using Bench.Model.Runs;

namespace Bench.Tests.Running;

public class WallClockTests
{
    [Theory]
    [InlineData(-3600, "was set back by 3600 s")]
    [InlineData(3600, "was set forward by 3600 s")]
    public void Execute_WallClockSetInMidRun_CountsItsTimeFromItsStartAndSaysSo(double seconds, string words)
    {
        RunRecord asItIs = new VirtualRun(VirtualRun.Short).Execute();
        VirtualRun run = new(VirtualRun.Short);
        SteppedClock clock = new(run.Time);
        run.Clock = clock;
        run.After(3000, () => clock.SetBy = TimeSpan.FromSeconds(seconds));
        RunRecord record = run.Execute();
        Assert.Equal(asItIs.EndedAt, record.EndedAt);
        Assert.Equal(asItIs.Outcome, record.Outcome);
        Assert.Contains(words, Assert.Single(record.Events.Except(asItIs.Events)).Text, StringComparison.Ordinal);
    }
}
