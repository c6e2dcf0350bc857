using Bench.Model.Instruments;
using Bench.Running.Landing;

namespace Bench.Tests.Running.Landing;

public class CoastPredictorTests
{
    [Fact]
    public void Expect_NothingSeen_IsTheFirstGuess() =>
        Assert.Equal(263 * CoastPredictor.FirstGuessS, new CoastPredictor().Expect(DriveDirection.Up, 263), 9);

    [Fact]
    public void Expect_OneWildMoveAmongMany_IsTheMedian()
    {
        CoastPredictor coast = new();
        foreach (double counts in new[] { 7.0, 7.2, 6.9, 7.1, 40.0 })
        {
            coast.Add(DriveDirection.Up, counts, 263);
        }

        Assert.Equal(7.1, coast.Expect(DriveDirection.Up, 263), 9);
        Assert.False(coast.Knows(DriveDirection.Down));
    }

    [Fact]
    public void Expect_SlowerMove_CoastsLessAndTheSameWay()
    {
        CoastPredictor coast = new();
        coast.Add(DriveDirection.Down, -8, -260);
        Assert.Equal(-4, coast.Expect(DriveDirection.Down, -130), 9);
    }
}
