using Bench.Analysis.Statistics;

namespace Bench.Tests.Analysis.Statistics;

// Against R: Campaigns/ChecksTests.
public class RobustTests
{
    [Fact]
    public void MedianWithUncertainty_EqualValues_FallsBackOnResolution() =>
        Assert.Equal((3.0, Robust.MedianPenalty * 0.5 / 2), Robust.MedianWithUncertainty([3, 3, 3, 3], 0.5));
}
