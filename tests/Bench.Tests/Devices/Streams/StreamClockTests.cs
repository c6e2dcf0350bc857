using Bench.Devices.Streams;
using Bench.Simulation.Chance;

namespace Bench.Tests.Devices.Streams;

public class StreamClockTests
{
    // A crystal of 100 ppm, and an adapter that hands on every 16 ms what came: common practice, no source.
    [Theory]
    [InlineData(0.0, 0.0)]
    [InlineData(1e-4, 0.016)]
    [InlineData(-1e-4, 0.016)]
    [InlineData(0.004, 0.001)]
    public void Take_DelayedAndBatchedFrames_AreTimedByTheLeastDelayed(double fast, double batchS)
    {
        StreamClock clock = new(1000);
        SeededRandom random = new(7);
        double worst = 0;
        double period = 0.001 / (1 + fast);
        for (int i = 0; i < 10_000; i++)
        {
            double madeS = 3 + (i * period);
            double arrivedS = madeS + 0.0002 - (0.0003 * Math.Log(1 - random.Between(0.0, 0.999)));
            arrivedS = batchS > 0 ? Math.Ceiling(arrivedS / batchS) * batchS : arrivedS;
            double said = clock.Take(i, arrivedS);
            if (i > 2000)
            {
                worst = Math.Max(worst, Math.Abs(said - madeS - 0.0002));
                Assert.InRange(Math.Abs(said - madeS - 0.0002), 0, clock.HalfWidthS + 0.0003 + (0.08 * batchS));
            }
        }

        Assert.InRange(worst, 0, 0.0015);
        Assert.Equal(1000 * (1 + fast), clock.RateHz!.Value, 1.0);
    }

    [Fact]
    public void Take_AfterAReset_BeginsAnew()
    {
        StreamClock clock = new(1000);
        for (int i = 0; i < 1000; i++)
        {
            clock.Take(i, i * 0.001);
        }

        clock.Reset();
        Assert.Null(clock.RateHz);
        Assert.Equal(50.0, clock.Take(1000, 50.0), 9);
    }
}
