using Bench.Analysis.Statistics;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;

namespace Bench.Tests.Analysis.Uncertainty;

public class ContributionsTests
{
    [Fact]
    public void Median_EqualValues_IsAsUncertainAsTheirResolution()
    {
        (double median, Contribution of) = Contributions.Median([3, 3, 3, 3], "scatter", 0.5, "resolution");
        Assert.Equal(3, median);
        Assert.Equal(new Contribution("resolution", EvaluationType.B, ErrorDistribution.Rectangular, Robust.MedianPenalty * 0.5 / 2) { FallsAsPower = 0.5 }, of);
    }

    // Median 4, deviations 3 2 1 0 1 2 3, their median 2: by hand.
    [Fact]
    public void Median_ScatteredValues_IsAsUncertainAsTheirScatter()
    {
        (double median, Contribution of) = Contributions.Median([1, 2, 3, 4, 5, 6, 7], "scatter", 0.5, "resolution");
        Assert.Equal(4, median);
        Assert.Equal(("scatter", EvaluationType.A), (of.Source, of.Type));
        Assert.Equal(1.2533141373 * 1.4826022185 * 2 / Math.Sqrt(7), of.StandardUncertainty, 1e-9);
        Assert.Equal(0.3675 * 6, of.DegreesOfFreedom!.Value, 1e-9);
    }
}
