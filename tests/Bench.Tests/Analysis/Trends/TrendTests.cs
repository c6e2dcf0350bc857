using Bench.Analysis.Trends;
using CsCheck;

namespace Bench.Tests.Analysis.Trends;

public class TrendTests
{
    private static readonly double[][] Nile =
        [.. CheckData.Lines("nile.csv").Skip(1).Where(l => l.Length > 0).Select(l => l.Split(',').Select(CheckData.Number).ToArray())];

    // R 4.2.2 package trend and scipy 1.10.1 theilslopes, which agree.
    [Fact]
    public void TheilSen_Nile_AgreesWithTwoLibraries()
    {
        TheilSen trend = TheilSen.Of([.. Nile.Select(r => r[0])], [.. Nile.Select(r => r[1])]);

        Assert.Equal(-2.6, trend.Slope, 1e-12);
        Assert.Equal(-3.627906976744186, trend.Lower, 1e-12);
        Assert.Equal(-1.4285714285714286, trend.Upper, 1e-12);
    }

    // R 4.2.2 package trend.
    [Fact]
    public void MannKendall_Nile_AgreesWithR()
    {
        MannKendall test = MannKendall.Of([.. Nile.Select(r => r[1])]);

        Assert.Equal(-1387, test.S);
        Assert.Equal(112728.333333333, test.Variance, 1e-8);
        Assert.Equal(-4.12806652284, test.Z, 1e-11);
    }

    // First: EPA QA/G-9S, page 109, S 22, variance 155.33, Z 1.685. Second: a table of the Wisconsin natural resources
    // department, S -5. Third: ties in groups of 3, 2 and 4 (R package trend).
    [Theory]
    [InlineData(new double[] { 10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15 }, 22, 155.333333333, 1.6849497897538)]
    [InlineData(new double[] { 100, 50, 85, 75, 50 }, -5, 15.6666666667, -1.01058230528)]
    [InlineData(new double[] { 17, 14, 39, 16, 39, 14, 14, 39, 17, 39 }, 7, 111.666666667, 0.567792268089)]
    public void MannKendall_PublishedExample_Agrees(double[] values, long s, double variance, double z)
    {
        MannKendall test = MannKendall.Of(values);

        Assert.Equal(s, test.S);
        Assert.Equal(variance, test.Variance, 1e-8);
        Assert.Equal(z, test.Z, 1e-10);
    }

    [Fact]
    public void TheilSen_LineAdded_SlopeRisesByIt() =>
        Gen.Select(Gen.Double[-5, 5].Array[3, 25], Gen.Double[-3, 3]).Sample((y, slope) =>
        {
            double[] x = [.. Enumerable.Range(0, y.Length).Select(i => (double)i)];
            double before = TheilSen.Of(x, y).Slope;
            double after = TheilSen.Of(x, [.. y.Select((v, i) => v + (slope * i))]).Slope;
            Assert.Equal(before + slope, after, 1e-9);
        });
}
