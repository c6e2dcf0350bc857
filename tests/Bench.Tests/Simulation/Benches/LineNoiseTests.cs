using Bench.Devices.Modbus;
using Bench.Simulation.Benches;
using Bench.Simulation.Chance;

namespace Bench.Tests.Simulation.Benches;

public class LineNoiseTests
{
    [Fact]
    public void Pass_ManyFrames_HitsTheShareAndEveryHitIsSeenByTheCheck()
    {
        LineNoise noise = new(0.06, new SeededRandom(3));
        byte[] frame = new byte[8];
        int hit = 0;
        for (int i = 0; i < 20_000; i++)
        {
            new byte[] { 4, 0, 0, 0, 1 }.CopyTo(frame, 1);
            int length = RtuFrame.Close(frame, 11, 5);
            int arriving = noise.Pass(frame.AsSpan(0, length));
            hit += arriving < length || !RtuFrame.IsWhole(frame.AsSpan(0, arriving)) ? 1 : 0;
        }

        // Binomial, four standard deviations.
        Assert.InRange(hit / 20_000.0, 0.0533, 0.0667);
    }

    [Fact]
    public void Pass_NoShare_LeavesFramesAlone()
    {
        LineNoise noise = new(0.0, new SeededRandom(3));
        byte[] frame = [1, 2, 3];
        Assert.Equal(3, noise.Pass(frame));
        Assert.Equal([1, 2, 3], frame);
    }
}
