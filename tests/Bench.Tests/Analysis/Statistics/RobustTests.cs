using Bench.Analysis.Statistics;

namespace Bench.Tests.Analysis.Statistics;

public class RobustTests
{
    // R 4.2.2 median() and mad() on NIST's Lew and Michelso.
    [Theory]
    [InlineData("Lew.dat", -162, 401.0433)]
    [InlineData("Michelso.dat", 299.85, 0.066717)]
    public void MedianAndDeviation_NistReferenceSet_AgreeWithR(string file, double median, double deviation)
    {
        double[] values = CheckData.Nist(file).Values;

        Assert.Equal(median, Robust.Median(values), 1e-9);
        Assert.Equal(1, Robust.Deviation(values) / deviation, 1e-5);
    }

    [Fact]
    public void MedianWithUncertainty_EqualValues_FallsBackOnResolution() =>
        Assert.Equal((3.0, Robust.MedianPenalty * 0.5 / 2), Robust.MedianWithUncertainty([3, 3, 3, 3], 0.5));
}
