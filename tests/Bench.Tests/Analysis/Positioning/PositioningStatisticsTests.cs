using Bench.Analysis.Positioning;
using CsCheck;

namespace Bench.Tests.Analysis.Positioning;

// Against a published report and R: Campaigns/ChecksTests.
public class PositioningStatisticsTests
{
    private static readonly double[][] Runs = [[1, 0, 2, 1, 1], [2, 1, 1, 0, 1], [0, 1, -1, 0, 0]];

    // ISO 230-2:2014, unidirectional: from one side R, E and A are those of the side, and there is no reversal.
    [Fact]
    public void Statistics_OneSideOnly_AreUnidirectional()
    {
        PositioningStatistics ring = new([.. Runs.Select(u => TargetStatistics.Of(u, []))]);

        Assert.Null(ring.Reversal);
        Assert.Null(ring.MeanReversal);
        Assert.Null(ring.Down);
        Assert.Equal(ring.Up!.Repeatability, ring.Repeatability);
        Assert.Equal(ring.Up!.SystematicDeviation, ring.SystematicDeviation);
        Assert.Equal(ring.Up!.Accuracy, ring.Accuracy);
    }

    [Fact]
    public void Statistics_OneRunFromASide_HaveNoScatterAndNoNumberThatNeedsIt()
    {
        PositioningStatistics ring = new([TargetStatistics.Of([1, 2], [-3]), TargetStatistics.Of([0, 2], [-1, -2])]);

        Assert.Null(ring.Repeatability);
        Assert.Null(ring.Accuracy);
        Assert.Null(ring.Down!.Repeatability);
        Assert.Equal(4.5, ring.Reversal);
        Assert.Equal(4.5, ring.SystematicDeviation, 1e-12);
        Assert.Equal(1, ring.FewestRuns);
    }

    [Fact]
    public void Target_NoRuns_IsRefused() => Assert.Throws<ArgumentException>(() => TargetStatistics.Of([], []));

    // A common offset is taken out by zeroing: only the means move.
    [Fact]
    public void Statistics_OffsetAdded_AreTheSame() =>
        Gen.Select(Gen.Double[-3, 3].Array[2, 6].Array[2, 5], Gen.Double[-3, 3].Array[2, 6].Array[5], Gen.Double[-100, 100]).Sample((up, down, offset) =>
        {
            PositioningStatistics before = new([.. up.Zip(down, (u, d) => TargetStatistics.Of(u, d))]);
            PositioningStatistics after = new([.. up.Zip(down, (u, d) => TargetStatistics.Of([.. u.Select(v => v + offset)], [.. d.Select(v => v + offset)]))]);
            Assert.Equal(before.Reversal!.Value, after.Reversal!.Value, 1e-9);
            Assert.Equal(before.Repeatability!.Value, after.Repeatability!.Value, 1e-9);
            Assert.Equal(before.Accuracy!.Value, after.Accuracy!.Value, 1e-9);
            Assert.True(after.Accuracy >= after.SystematicDeviation - 1e-9 && after.SystematicDeviation >= after.MeanDeviation - 1e-9);
        });

    // Looked at from the other end, up is down: B̄ changes sign, all else stays.
    [Fact]
    public void Statistics_Mirrored_AreTheSame() =>
        Gen.Select(Gen.Double[-3, 3].Array[2, 6].Array[2, 5], Gen.Double[-3, 3].Array[2, 6].Array[5]).Sample((up, down) =>
        {
            PositioningStatistics before = new([.. up.Zip(down, (u, d) => TargetStatistics.Of(u, d))]);
            PositioningStatistics after = new([.. up.Zip(down, (u, d) => TargetStatistics.Of(d, u))]);
            Assert.Equal(-before.MeanReversal!.Value, after.MeanReversal!.Value, 1e-12);
            Assert.Equal(before.Repeatability!.Value, after.Repeatability!.Value, 1e-12);
            Assert.Equal(before.Accuracy!.Value, after.Accuracy!.Value, 1e-12);
        });
}
