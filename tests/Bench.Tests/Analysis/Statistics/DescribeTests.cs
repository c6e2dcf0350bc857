using Bench.Analysis.Statistics;
using CsCheck;

namespace Bench.Tests.Analysis.Statistics;

// Against NIST's certified values: Campaigns/ChecksTests.
public class DescribeTests
{
    [Fact]
    public void StandardDeviation_OneValue_IsRefused() =>
        Assert.Throws<ArgumentException>(() => Describe.StandardDeviation([1.0]));

    [Fact]
    public void Autocorrelation_EqualValues_IsNone() => Assert.Null(Describe.Autocorrelation([3, 3, 3]));

    [Fact]
    public void Autocorrelation_ReversedInTime_IsTheSame() =>
        Gen.Double[-5, 5].Array[3, 40].Sample(x =>
        {
            double r = Describe.Autocorrelation(x) ?? 0;
            Assert.InRange(r, -1, 1);
            Assert.Equal(r, Describe.Autocorrelation([.. x.Reverse()]) ?? 0, 1e-9);
        });
}
