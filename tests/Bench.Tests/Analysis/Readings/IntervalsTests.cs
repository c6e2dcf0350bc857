using Bench.Analysis.Readings;
using Bench.Model.Features;
using CsCheck;

namespace Bench.Tests.Analysis.Readings;

public class IntervalsTests
{
    // Intervals of any size, as a stream has them, all alike, and with pauses between.
    private static readonly Gen<double[]> Times =
        from period in Gen.Double[-6, 1].Select(p => Math.Pow(10, p))
        from jitter in Gen.OneOf(Gen.Const(0.0), Gen.Double[0, 3])
        from shares in Gen.Double[0, 1].Array[1, 900]
        from start in Gen.Double[0, 100]
        select shares.Aggregate(new List<double> { start }, (t, share) =>
        {
            t.Add(t[^1] + (period * (1 + (jitter * share)) * (share > 0.995 ? 50 : 1)));
            return t;
        }).ToArray();

    // The oracle is the sorted list, nearest rank.
    [Fact]
    public void Times_AnyInstants_AreThoseOfTheSortedIntervalsToOnePartIn8000() =>
        Times.Sample(times =>
        {
            double[] sorted = [.. times.Zip(times.Skip(1), (a, b) => b - a).Order()];
            Intervals intervals = new();
            intervals.AddBetween(times);
            ReadingTimes got = intervals.Times(times.Length, null);

            AssertNear(sorted[Rank(0.5, sorted.Length)], got.MedianIntervalS);
            AssertNear(sorted[Rank(0.99, sorted.Length)], got.P99IntervalS);
            Assert.Equal(sorted[^1], got.WorstIntervalS);
        });

    [Fact]
    public void Times_AddedOneByOne_AreThoseOfAllAtOnce() =>
        Times.Sample(times =>
        {
            Intervals together = new(), alone = new();
            together.AddBetween(times);
            foreach ((double a, double b) in times.Zip(times.Skip(1)))
            {
                alone.Add(b - a);
            }

            Assert.Equal(together.Times(times.Length, null), alone.Times(times.Length, null));
        });

    [Theory]
    [InlineData(0)]
    [InlineData(1e-12)]
    [InlineData(1e7)]
    [InlineData(-0.001)]
    public void Times_IntervalsNoClockTellsApart_AreStillTold(double seconds)
    {
        Intervals intervals = new();
        intervals.Add(seconds);
        intervals.Add(seconds);

        Assert.Equal((seconds, seconds, seconds), Told(intervals));
    }

    [Fact]
    public void AddBetween_OneInstantOrNone_AddsNothing()
    {
        Intervals intervals = new();
        intervals.AddBetween([]);
        intervals.AddBetween([3]);

        Assert.Null(intervals.Times(1, null).MedianIntervalS);
    }

    private static (double?, double?, double?) Told(Intervals intervals)
    {
        ReadingTimes times = intervals.Times(3, null);
        return (times.MedianIntervalS, times.P99IntervalS, times.WorstIntervalS);
    }

    private static int Rank(double share, int count) => (int)Math.Ceiling(share * count) - 1;

    private static void AssertNear(double expected, double? got) => Assert.Equal(expected, got!.Value, expected / 8000);
}
