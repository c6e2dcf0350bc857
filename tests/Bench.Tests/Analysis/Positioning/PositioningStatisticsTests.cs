using Bench.Analysis.Positioning;

namespace Bench.Tests.Analysis.Positioning;

public class PositioningStatisticsTests
{
    // A public acceptance report of a linear axis (2021), mm: means and deviations up and down at five targets. R, E, A
    // recomputed from them by the definitions of ISO 230-2; the report itself takes the greater of R up and R down for R
    // (0.0075) and a one-sided span for E (0.01485), which the standard does not.
    private static readonly PositioningStatistics Axis = new(
    [
        Target(0.002250, 0.0006694400645, 0.004202, 0.0009706286623),
        Target(0.000394, 0.0004644136088, -0.004170, 0.0003912160528),
        Target(0.002084, 0.0018755879078, -0.000854, 0.0008323641030),
        Target(-0.009020, 0.0009840477631, -0.007884, 0.0005376616036),
        Target(0.006032, 0.0005226566751, 0.006968, 0.0003076036411),
    ]);

    [Fact]
    public void Statistics_AxisWithReport_FollowTheStandardNotTheReport()
    {
        Assert.Equal(0.004564, Axis.Reversal!.Value, 1e-9);
        Assert.Equal(0.008353904022, Axis.Repeatability, 1e-9);
        Assert.Equal(0.015988, Axis.SystematicError, 1e-9);
        Assert.Equal(0.014952, Axis.MeanError, 1e-9);
        Assert.Equal(0.018571302808, Axis.Accuracy, 1e-9);
    }

    [Theory]
    [InlineData(0, 0.005232137454)]
    [InlineData(1, 0.006275259323)]
    [InlineData(2, 0.008353904022)]
    [InlineData(3, 0.004179418733)]
    [InlineData(4, 0.002596520632)]
    public void Repeatability_EachTarget_AgreesWithRecomputation(int target, double expected) =>
        Assert.Equal(expected, Axis.Targets[target].Repeatability, 1e-9);

    // Made-up landings on a ring of 1000 at eight targets, deviations wrapped; expected values by the same definitions in R.
    [Fact]
    public void Statistics_RingOfEightTargets_AgreeWithR()
    {
        double[][] up = [[1, 0, 2, 1, 1], [2, 1, 1, 0, 1], [0, 1, -1, 0, 0], [-1, -2, -1, 0, -1], [1, 2, 1, 1, 0], [1, 0, 2, 1, 1], [-1, 0, -1, -2, -1], [1, 0, 1, 2, 1]];
        double[][] down = [[-2, -3, -1, -2, -2], [-2, -1, -2, -3, -2], [-3, -4, -3, -2, -3], [-4, -3, -4, -5, -4], [-2, -1, -2, -3, -2], [-2, -3, -2, -1, -2], [-4, -3, -4, -5, -4], [-2, -3, -2, -1, -2]];
        PositioningStatistics ring = new([.. up.Zip(down, (u, d) => TargetStatistics.Of(u, d))]);

        Assert.Equal(3, ring.Reversal!.Value, 1e-12);
        Assert.Equal(3 + (2 * Math.Sqrt(2)), ring.Repeatability, 1e-12);
        Assert.Equal(5, ring.SystematicError, 1e-12);
        Assert.Equal(2, ring.MeanError, 1e-12);
        Assert.Equal(7.828427125, ring.Accuracy, 1e-9);
    }

    // The same set from one side: R up 2.828427125, E up 2, A up 4.828427125.
    [Fact]
    public void Statistics_OneSideOnly_AreUnidirectional()
    {
        double[][] up = [[1, 0, 2, 1, 1], [2, 1, 1, 0, 1], [0, 1, -1, 0, 0], [-1, -2, -1, 0, -1], [1, 2, 1, 1, 0]];
        PositioningStatistics ring = new([.. up.Select(u => TargetStatistics.Of(u, []))]);

        Assert.Null(ring.Reversal);
        Assert.Equal(2.828427125, ring.Repeatability, 1e-9);
        Assert.Equal(2, ring.SystematicError, 1e-12);
        Assert.Equal(4.828427125, ring.Accuracy, 1e-9);
    }

    private static TargetStatistics Target(double up, double upDeviation, double down, double downDeviation) =>
        new(new DirectionStatistics(up, upDeviation, 5), new DirectionStatistics(down, downDeviation, 5));
}
