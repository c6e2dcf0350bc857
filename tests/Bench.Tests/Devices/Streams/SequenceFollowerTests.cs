using Bench.Devices.Streams;

namespace Bench.Tests.Devices.Streams;

public class SequenceFollowerTests
{
    [Theory]
    [InlineData(8, 6, 0.001, 1)]
    [InlineData(8, 5, 0.001, 0)] // the same again
    [InlineData(8, 9, 0.004, 4)] // three are missing
    [InlineData(8, 9, 0.5, 516)] // and two turns of the counter, says the time
    [InlineData(8, 6, 0.2565, 257)]
    [InlineData(8, 4, 0.255, 255)]
    [InlineData(16, 5, 0.001, 0)]
    [InlineData(16, 0, 0.001, -1)] // it began anew
    [InlineData(16, 0, 65.53, 65531)]
    [InlineData(32, 7, 0.002, 2)]
    public void Take_Counter_SaysHowFarItWent(int bits, int counter, double afterS, long expected)
    {
        SequenceFollower follower = new(bits, rateHz: 1000);
        Assert.Equal(1, follower.Take(5, 10.0));
        Assert.Equal(expected, follower.Take((uint)counter, 10.0 + afterS));
    }

    [Fact]
    public void Take_BatchesOfAnAdapter_AreNeitherLostNorDoubled()
    {
        SequenceFollower follower = new(8, rateHz: 1000);
        for (int i = 0; i < 4000; i++)
        {
            Assert.Equal(1, follower.Take((uint)(i % 256), ((i / 16) + 1) * 0.016));
        }

        Assert.Equal(3999, follower.Number);
    }
}
