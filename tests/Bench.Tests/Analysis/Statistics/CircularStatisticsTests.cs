using Bench.Analysis.Statistics;
using CsCheck;

namespace Bench.Tests.Analysis.Statistics;

// Against R, scipy and Davis 1986: Campaigns/ChecksTests.
public class CircularStatisticsTests
{
    // On a ring of 1000 these stand about 0; an ordinary mean says 400.
    [Fact]
    public void Of_CountsOverTheSeam_HaveTheirMeanThere()
    {
        CircularStatistics ring = CircularStatistics.Of([998, 999, 0, 1, 2], 1000);

        Assert.Equal(0, Math.IEEERemainder(ring.Mean!.Value, 1000), 1e-9);
        Assert.Equal(1.414219610803, ring.Deviation!.Value, 1e-9);
    }

    [Fact]
    public void Of_OppositeCounts_PointNowhere()
    {
        CircularStatistics ring = CircularStatistics.Of([0, 250, 500, 750], 1000);

        Assert.Null(ring.Mean);
        Assert.Null(ring.Deviation);
        Assert.Equal(1, ring.RayleighProbability, 1e-9);
    }

    [Fact]
    public void Of_NoValues_IsRefused() => Assert.Throws<ArgumentException>(() => CircularStatistics.Of([], 800));

    [Fact]
    public void Of_RingTurned_MeanTurnsAndScatterStays() =>
        Gen.Select(Gen.Int[0, 799].Array[1, 30], Gen.Int[-2000, 2000]).Sample((counts, turn) =>
        {
            CircularStatistics before = CircularStatistics.Of([.. counts.Select(c => (double)c)], 800);
            CircularStatistics after = CircularStatistics.Of([.. counts.Select(c => (double)(c + turn))], 800);
            Assert.Equal(before.Resultant, after.Resultant, 1e-9);
            if (before.Resultant > 1e-3)
            {
                Assert.InRange(after.Mean!.Value, 0, 800);
                Assert.Equal(0, Math.IEEERemainder(before.Mean!.Value + turn - after.Mean.Value, 800), 1e-6);
            }
        });
}
