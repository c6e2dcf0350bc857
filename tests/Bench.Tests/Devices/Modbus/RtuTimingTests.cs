using Bench.Devices.Modbus;

namespace Bench.Tests.Devices.Modbus;

public class RtuTimingTests
{
    // Serial Line V1.02, 2.5.1.1: 3.5 characters of 11 bits; above 19200 baud 1.750 ms.
    [Theory]
    [InlineData(1200, 32.083333)]
    [InlineData(2400, 16.041667)]
    [InlineData(4800, 8.020833)]
    [InlineData(9600, 4.010417)]
    [InlineData(19200, 2.005208)]
    [InlineData(38400, 1.75)]
    [InlineData(115200, 1.75)]
    public void Gap_AtASpeed_IsThatOfTheSpecification(int baud, double ms) =>
        Assert.Equal(ms, RtuTiming.Gap(new WireRate(baud, 11).CharacterTime).TotalMilliseconds, 0.0004); // characters are kept to 0.1 µs

    [Fact]
    public void Gap_CharactersTakeNoTime_IsNone() => Assert.Equal(TimeSpan.Zero, RtuTiming.Gap(TimeSpan.Zero));
}
