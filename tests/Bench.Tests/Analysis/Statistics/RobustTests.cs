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

    // So many that they are bracketed: steps of a meter, of which many are equal, and values that never are.
    [Fact]
    public void Median_ManyValues_IsTheMiddleOfTheSorted() =>
        Gen.Int[1, 6].SelectMany(digits => Gen.Int[0, (int)Math.Pow(10, digits)].Array[500, 3000]).Sample(
            v =>
            {
                double[] sorted = [.. v.Select(i => (double)i).Order()];
                Assert.Equal((sorted[(v.Length - 1) / 2] + sorted[v.Length / 2]) / 2, Robust.Median([.. v.Select(i => (double)i)]));
            },
            iter: 1000);

    [Theory]
    [InlineData(5000, 1)]
    [InlineData(5000, -1)]
    [InlineData(5000, 0)]
    public void Median_RisingFallingOrEqualValues_TakesNoLong(int n, int slope) =>
        Assert.Equal(slope * (n - 1) / 2.0, Robust.Median([.. Enumerable.Range(0, n).Select(i => (double)(slope * i))]));
}
