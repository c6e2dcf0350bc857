using Bench.Analysis.Statistics;
using CsCheck;

namespace Bench.Tests.Analysis.Statistics;

// Against NIST's certified values and R: Campaigns/ChecksTests.
public class LinearFitTests
{
    [Fact]
    public void Of_TwoEqualRegressors_IsNone() => Assert.Null(LinearFit.Of([[1, 2, 3, 4], [2, 4, 6, 8]], [1, 2, 3, 5]));

    [Fact]
    public void Of_AsManyCoefficientsAsPoints_IsNone() => Assert.Null(LinearFit.Of([[1, 2], [1, 5]], [1, 2]));

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Of_NotFinite_IsNone(double bad)
    {
        Assert.Null(LinearFit.Of([[1, 2, 3]], [1, bad, 3]));
        Assert.Null(LinearFit.Of([[1, bad, 3]], [1, 2, 3]));
    }

    [Fact]
    public void Of_Zeros_IsNone() => Assert.Null(LinearFit.Of([[0, 0, 0]], [1, 2, 3]));

    [Fact]
    public void Of_LengthsDiffer_IsRefused() => Assert.Throws<ArgumentException>(() => LinearFit.Of([[1, 2]], [1, 2, 3]));

    // The interval is what its confidence says: about 5 % of 95 % intervals miss the truth.
    [Fact]
    public void HalfWidth_ManySeededFits_MissesAsOftenAsStated()
    {
        Random random = new(5);
        double[] x = [1, 2, 3, 4, 5, 6];
        double[] ones = [1, 1, 1, 1, 1, 1];
        int missed = 0;
        for (int i = 0; i < 4000; i++)
        {
            double[] y = [.. x.Select(v => 2 + (3 * v) + Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()))];
            LinearFit fit = LinearFit.Of([ones, x], y)!;
            missed += Math.Abs(fit.Coefficients[1] - 3) > fit.HalfWidth(1, 0.95) ? 1 : 0;
        }

        // 200 ± 4 · √190.
        Assert.InRange(missed, 145, 255);
    }
}
