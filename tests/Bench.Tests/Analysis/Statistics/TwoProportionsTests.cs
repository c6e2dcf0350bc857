using Bench.Analysis.Statistics;

namespace Bench.Tests.Analysis.Statistics;

public class TwoProportionsTests
{
    // R 4.2.2 prop.test(c(56, 48), c(70, 80), correct = FALSE): chi-square 7.023411371, p 0.00804508137.
    [Fact]
    public void Z_TwoSamples_SquaredIsPearsonsChiSquare()
    {
        double z = TwoProportions.Z(56, 70, 48, 80);

        Assert.Equal(7.023411371, z * z, 1e-8);
        Assert.Equal(0.00804508137, 2 * TwoProportions.FirstGreater(56, 70, 48, 80), 1e-10);
    }

    [Fact]
    public void FirstGreater_NoEventsAtAll_TellsNothing() => Assert.Equal(0.5, TwoProportions.FirstGreater(0, 10, 0, 20));
}
