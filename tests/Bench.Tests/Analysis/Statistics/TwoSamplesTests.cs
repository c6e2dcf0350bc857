using Bench.Analysis.Statistics;
using CsCheck;

namespace Bench.Tests.Analysis.Statistics;

/// <summary>Exact tests of two samples; expected values from R 4.2.2 (fisher.test, poisson.test, pt), twelve digits.</summary>
public sealed class TwoSamplesTests
{
    [Theory]
    [InlineData(15, 1200, 4, 1100, 0.0208221578215)]
    [InlineData(3, 4, 1, 4, 0.485714285714)]
    [InlineData(0, 38, 2, 52, 0.506616729089)]
    [InlineData(0, 30_000, 9, 30_000, 0.0039039066211)]
    [InlineData(0, 38, 0, 52, 1)]
    [InlineData(0, 0, 3, 5, 1)]
    public void Fisher_OfCounts_IsRs(long k1, long n1, long k2, long n2, double expected) =>
        Assert.Equal(expected, TwoSamples.Fisher(k1, n1, k2, n2), expected * 1e-9);

    // The first is the example of R's poisson.test.
    [Theory]
    [InlineData(11, 800, 21, 3011, 0.0796686330333)]
    [InlineData(0, 38, 7, 52, 0.0238865709797)]
    [InlineData(0, 38, 0, 52, 1)]
    public void Rates_OfCounts_IsRs(long k1, double exposure1, long k2, double exposure2, double expected) =>
        Assert.Equal(expected, TwoSamples.Rates(k1, exposure1, k2, exposure2), expected * 1e-9);

    [Theory]
    [InlineData(2.5, 7.3, 0.0396502346656)]
    [InlineData(-2.5, 7.3, 0.0396502346656)]
    [InlineData(1.959963984540054, null, 0.05)]
    public void Student_OfARatio_IsRs(double ratio, double? freedom, double expected) =>
        Assert.Equal(expected, TwoSamples.Student(ratio, freedom), 1e-10);

    [Fact]
    public void Fisher_AnyTable_IsAProbabilityAndTheSameFromBothSides() =>
        Gen.Select(Gen.Int[0, 60], Gen.Int[0, 60], Gen.Int[0, 60], Gen.Int[0, 60]).Sample((a, b, c, d) =>
        {
            double p = TwoSamples.Fisher(a, a + b, c, c + d);
            Assert.InRange(p, 0, 1);
            Assert.Equal(p, TwoSamples.Fisher(c, c + d, a, a + b), 1e-9);
            Assert.Equal(p, TwoSamples.Fisher(b, a + b, d, c + d), 1e-9);
        });

    [Fact]
    public void Fisher_MoreEventsThanTrials_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => TwoSamples.Fisher(3, 2, 0, 5));
}
