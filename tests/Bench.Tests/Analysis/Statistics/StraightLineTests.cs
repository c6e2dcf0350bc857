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

    // Counts are whole: whatever their pattern, the line lies where they do.
    [Fact]
    public void Robustly_PairsOfSomePointsOnly_StaysOnTheLineOfWholeCounts() =>
        Gen.Select(Gen.Double[0, 1], Gen.Double[0.2, 0.4], Gen.Int[65, 300], Gen.Int[0, 64]).Sample((start, slope, n, wild) =>
        {
            double[] x = [.. Enumerable.Range(0, n).Select(i => (double)i)];
            double[] y = [.. x.Select((v, i) => i == wild ? 900 : Math.Floor(start + (slope * v)))];
            double middle = (n - 1) / 2.0;
            Assert.Equal(start + (slope * middle) - 0.5, StraightLine.Robustly(x, y, 64).At(middle), 0.5);
        });

    [Fact]
    public void Robustly_OneWildPoint_IsNotMoved() =>
        Assert.Equal(10, StraightLine.Robustly([0, 1, 2, 3, 4], [0, 2, 900, 6, 8]).At(5), 1e-9);
}
