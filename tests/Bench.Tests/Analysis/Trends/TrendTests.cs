using Bench.Analysis.Trends;
using CsCheck;

namespace Bench.Tests.Analysis.Trends;

// Against R, scipy and published examples: Campaigns/ChecksTests.
public class TrendTests
{
    [Fact]
    public void TheilSen_LineAdded_SlopeRisesByIt() =>
        Gen.Select(Gen.Double[-5, 5].Array[3, 25], Gen.Double[-3, 3]).Sample((y, slope) =>
        {
            double[] x = [.. Enumerable.Range(0, y.Length).Select(i => (double)i)];
            double before = TheilSen.Of(x, y).Slope;
            double after = TheilSen.Of(x, [.. y.Select((v, i) => v + (slope * i))]).Slope;
            Assert.Equal(before + slope, after, 1e-9);
        });

    [Fact]
    public void MannKendall_ReversedInTime_ChangesSign() =>
        Gen.Int[-3, 3].Array[3, 30].Sample(v =>
        {
            double[] y = [.. v.Select(i => (double)i)];
            MannKendall forward = MannKendall.Of(y);
            MannKendall back = MannKendall.Of([.. y.Reverse()]);
            Assert.Equal(-forward.S, back.S);
            Assert.Equal(forward.Variance, back.Variance, 1e-9);
        });

    // Counted by merging; all pairs one by one are the oracle.
    [Fact]
    public void MannKendall_AnyValues_CountsAllPairs() =>
        Gen.Int[-5, 5].Array[2, 60].Sample(v =>
        {
            long s = 0;
            for (int i = 0; i < v.Length; i++)
            {
                for (int j = i + 1; j < v.Length; j++)
                {
                    s += Math.Sign(v[j] - v[i]);
                }
            }

            Assert.Equal(s, MannKendall.Of([.. v.Select(i => (double)i)]).S);
        });

    [Fact]
    public void MannKendall_LongSeries_CountsEveryPair() =>
        Gen.Int[0, 60].Array[2, 200].Sample(v =>
        {
            long s = 0;
            for (int i = 0; i < v.Length; i++)
            {
                for (int j = i + 1; j < v.Length; j++)
                {
                    s += Math.Sign(v[j] - v[i]);
                }
            }

            Assert.Equal(s, MannKendall.Of([.. v.Select(i => (double)i)]).S);
        }, iter: 200);
}
