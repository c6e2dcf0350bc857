using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Tests.Running;

namespace Bench.Tests.Analysis.Motion;

/// <summary>Moves in which the unit stood: always or now and then, and how many in a row.</summary>
public class StandingMovesTests
{
    [Fact]
    public void OpenWinding_StoodInAllMoves_FourInARow()
    {
        RunRecord record = new VirtualRun(VirtualRun.Diverter, "open-winding").Execute();

        Assert.Equal((1, 4), (Value(record, "motion.still_share"), Value(record, "motion.no_current_in_a_row")));
        Assert.Equal("open-winding", record.Judgement!.Causes[0].Id);
    }

    [Fact]
    public void HangingBrush_StoodNowAndThen_NeverTwiceInARow()
    {
        RunRecord record = Enumerable.Range(1, 40).Select(seed => new VirtualRun(VirtualRun.Diverter, "hanging-brush", (ulong)seed).Execute())
            .First(r => Value(r, "motion.no_current_moves") > 0);

        Assert.InRange(Value(record, "motion.still_share"), 0.01, 0.3);
        Assert.Equal(1, Value(record, "motion.no_current_in_a_row"));
        Assert.Equal("hanging-brush", record.Judgement!.Causes[0].Id);
    }

    [Fact]
    public void WindingThatOpensWhenWarm_StoodInARowUntilItHadCooled()
    {
        RunRecord record = new VirtualRun(VirtualRun.Diverter, "warm-open-winding").Execute();

        Assert.Equal(0, Value(record, "motion.still_share"));
        Assert.InRange(Value(record, "motion.no_current_in_a_row"), 4, 8);
        Assert.Equal("warm-open-winding", record.Judgement!.Causes[0].Id);
    }

    [Fact]
    public void Features_ProfileDoesNotNameThem_AreNotComputed()
    {
        Profile without = VirtualRun.Short with { Limits = [.. VirtualRun.Short.Limits.Where(l => l.Feature is not ("motion.still_share" or "motion.no_current_in_a_row"))] };

        Assert.DoesNotContain(new VirtualRun(without).Execute().Features!.Features, f => f.Name is "motion.still_share" or "motion.no_current_in_a_row");
    }

    private static double Value(RunRecord record, string feature) => record.Features!.Features.Single(f => f.Name == feature).Value!.Value;
}
