using Bench.Analysis.Readings;
using Bench.Model.Instruments;
using Bench.Model.Traces;
using CsCheck;

namespace Bench.Tests.Analysis.Readings;

// The oracle is a plain loop over the samples.
public class SampleMarksTests
{
    // Mostly of one drive and answered, as blocks of a move are.
    private static readonly Gen<Sample[]> Block =
        from mostly in Gen.Bool
        from samples in Gen.Select(
            mostly ? Gen.Frequency((300, Gen.Const(DriveState.Up)), (1, Gen.Enum<DriveState>())) : Gen.Enum<DriveState>(),
            mostly ? Gen.Frequency((300, Gen.Enum<FeedbackStatus>().Where(f => f <= FeedbackStatus.Ok)), (1, Gen.Enum<FeedbackStatus>())) : Gen.Enum<FeedbackStatus>(),
            Gen.Int,
            Gen.Enum<IndexState>()).Array[0, SampleMarks.Most]
        select samples.Select(s => new Sample(1, s.Item1, s.Item2, s.Item3, 0.2, 24, s.Item4)).ToArray();

    [Fact]
    public void Of_AnyBlock_SaysWhatItHolds() =>
        Block.Sample(block =>
        {
            SampleMarks marks = new(block);

            Assert.Equal(block.Any(s => s.Drive == DriveState.Off), marks.AnyOff);
            Assert.Equal(block.Any(s => s.Feedback > FeedbackStatus.Ok), marks.AnyLost);
            Assert.Equal(block.Count(s => s.Feedback != FeedbackStatus.NotSampled), marks.Attempts);
            for (int i = 0; i < SampleMarks.Most; i++)
            {
                Assert.Equal(i < block.Length && block[i].Feedback != FeedbackStatus.NotSampled, (marks.Tried[i / 64] >> (i % 64) & 1) == 1);
            }
        });

    [Fact]
    public void Of_MoreThanABlock_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new SampleMarks(new Sample[SampleMarks.Most + 1]));
}
