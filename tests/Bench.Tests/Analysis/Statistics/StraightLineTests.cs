using Bench.Analysis.Statistics;
using CsCheck;

namespace Bench.Tests.Analysis.Statistics;

public class StraightLineTests
{
    [Fact]
    public void BothFits_PointsOnALine_FindIt() =>
        Gen.Select(Gen.Double[-100, 100], Gen.Double[-10, 10], Gen.Int[2, 20]).Sample((start, slope, n) =>
        {
            double[] x = [.. Enumerable.Range(0, n).Select(i => 0.3 * i)];
            double[] y = [.. x.Select(v => start + (slope * v))];
            Assert.Equal(start + (slope * 7), StraightLine.LeastSquares(x, y).At(7), 1e-8);
            Assert.Equal(start + (slope * 7), StraightLine.Robustly(x, y).At(7), 1e-8);
        });

    [Fact]
    public void Robustly_OneWildPoint_IsNotMoved() =>
        Assert.Equal(10, StraightLine.Robustly([0, 1, 2, 3, 4], [0, 2, 900, 6, 8]).At(5), 1e-9);
}
