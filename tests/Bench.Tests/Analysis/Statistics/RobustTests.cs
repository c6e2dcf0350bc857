using Bench.Analysis.Statistics;
using CsCheck;

namespace Bench.Tests.Analysis.Statistics;

// Against R: Campaigns/ChecksTests.
public class RobustTests
{
    // Small whole numbers, so that there are many ties; sorting is the oracle.
    [Fact]
    public void Median_AnyValues_IsTheMiddleOfTheSorted() =>
        Gen.Int[-20, 20].Array[1, 300].Sample(v =>
        {
            double[] values = [.. v.Select(i => (double)i)];
            double[] sorted = [.. values.Order()];
            Assert.Equal((sorted[(v.Length - 1) / 2] + sorted[v.Length / 2]) / 2, Robust.Median(values));
            Assert.Equal(v.Select(i => (double)i), values);
        });

    [Theory]
    [InlineData(5000, 1)]
    [InlineData(5000, -1)]
    [InlineData(5000, 0)]
    public void Median_RisingFallingOrEqualValues_TakesNoLong(int n, int slope) =>
        Assert.Equal(slope * (n - 1) / 2.0, Robust.Median([.. Enumerable.Range(0, n).Select(i => (double)(slope * i))]));
}
