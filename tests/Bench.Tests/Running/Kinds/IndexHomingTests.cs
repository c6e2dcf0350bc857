using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Simulation.Chance;
using Bench.Simulation.Conditions;

namespace Bench.Tests.Running.Kinds;

/// <summary>A counter's home is taken from the index on the valve shaft, wherever the unit begins.</summary>
public class IndexHomingTests
{
    private static readonly Profile Counting = VirtualRun.Diverter with { Feedback = FeedbackKind.Incremental, IndexCount = 100 };
    private static readonly Profile Short = Counting with { Routine = VirtualRun.Short.Routine };

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    public void Run_UnitBeginsAnywhere_EndsAtTheRightPorts(int seed)
    {
        KindRun run = new("other-feedbacks", Short, "healthy", (ulong)seed);
        double begin = run.Unit.ValvePosition;
        RunRecord record = run.Execute();

        Assert.Null(record.Abort);
        Assert.Equal([true, false, false, false], record.Moves.Select(m => m.Relative));
        Assert.All(record.Moves, m => Assert.Equal(MoveEnd.Landed, m.End));
        Feature home = record.Features!.Features.Single(f => f.Name == "index.home_shift_counts");

        // The bench file has home_count 200: the home was off by where the unit truly stood, less that.
        Assert.Equal(0.0, Short.Ring.Difference(home.Value!.Value, begin - 200), 3.0);
        Assert.InRange(home.StandardUncertainty!.Value, 0.3, 1.5);

        // The valve itself, whatever the counter says: at the port, give or take home, coast and play.
        Assert.Equal(0.0, Short.Ring.Difference(run.Unit.ValvePosition, record.Moves[^1].TargetCount), 5.0);
        Assert.Contains(record.Events, e => e.Text.StartsWith("home taken from the index", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_WholeRoutine_IsReusableAndSaysNothingOfTheRelativeMove()
    {
        RunRecord record = new KindRun("other-feedbacks", Counting).Execute();

        Assert.Equal(Disposition.Reusable, record.Judgement!.Disposition);
        Assert.Empty(record.Features!.Moves[0].IndexCounts);
        Assert.All(record.Features.Moves.SelectMany(m => m.IndexCounts), c => Assert.Equal(100.0, Counting.Ring.Place(c), 5.0));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Run_IndexDoesNotCome_IsHeldNotCondemned(bool wired)
    {
        KindRun run = new("other-feedbacks", Counting, new NoIndexCam(), 1, text => wired ? text : text.Replace("index = ", "# index = ", StringComparison.Ordinal));
        RunRecord record = run.Execute();

        Assert.Null(record.Abort);
        Assert.Equal(RunOutcome.Held, record.Outcome);
        Assert.Null(record.Judgement!.Disposition);
        Assert.Equal(wired ? 2 : 0, record.Moves.Count);
        Assert.Contains(record.Judgement.Missing, m => m.StartsWith("A home for the counter", StringComparison.Ordinal));
        Assert.Contains(record.Events, e => e.Text.Contains("home is not known", StringComparison.Ordinal));
        Assert.True(record.OutputsConfirmedOff);
    }

    [Fact]
    public void Run_SeizedUnit_IsCondemnedWithoutAHome()
    {
        RunRecord record = new KindRun("other-feedbacks", Counting, "seized-valve").Execute();
        Assert.Equal(Disposition.Scrap, record.Judgement!.Disposition);
    }

    [Fact]
    public void Run_ProfileWithoutPlaceOfIndex_GoesByTheFirstReadingAsBefore()
    {
        RunRecord record = new KindRun("other-feedbacks", Short with { IndexCount = null }).Execute();
        Assert.All(record.Moves, m => Assert.False(m.Relative));
        Assert.Equal(
            "this family's home is not taken from the index",
            record.Features!.Features.Single(f => f.Name == "index.home_shift_counts").NotAssessableBecause);
    }

    private sealed class NoIndexCam : ICondition
    {
        public string Id => "no-index-cam";

        public string Title => "the cam is gone";

        public Installation Apply(Installation healthy, SeededRandom random) =>
            healthy with { Unit = healthy.Unit with { Valve = healthy.Unit.Valve with { IndexWidthCounts = 0 } } };
    }
}
