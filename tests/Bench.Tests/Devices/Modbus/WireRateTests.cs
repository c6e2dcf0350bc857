using Bench.Devices.Modbus;

namespace Bench.Tests.Devices.Modbus;

public class WireRateTests
{
    // Worked by hand from Serial Line V1.02, 2.5.1.1: a read of n registers is 8 bytes, its answer 5 + 2n.
    [Theory]
    [InlineData(9600, 10, 10, 24)]
    [InlineData(9600, 11, 10, 22)]
    [InlineData(19200, 10, 10, 48)]
    [InlineData(38400, 10, 10, 83)]
    [InlineData(115200, 10, 10, 157)]
    [InlineData(115200, 11, 10, 150)]
    [InlineData(115200, 10, 2, 201)]
    public void TransactionsPerSecond_ReadOfRegisters_IsTheWiresLimit(int baud, int bits, int registers, int expected) =>
        Assert.Equal(expected, Math.Round(new WireRate(baud, bits).TransactionsPerSecond(8, 5 + (2 * registers))));

    // Serial Line V1.02, 2.5.1.1: 3.5 characters of 11 bits; above 19200 baud 1.750 ms.
    [Theory]
    [InlineData(1200, 32.083333)]
    [InlineData(9600, 4.010417)]
    [InlineData(19200, 2.005208)]
    [InlineData(38400, 1.750)]
    [InlineData(115200, 1.750)]
    public void Gap_ElevenBitCharacters_IsThatOfTheSpecification(int baud, double expectedMs) =>
        Assert.Equal(expectedMs, RtuTiming.Gap(TimeSpan.FromSeconds(11.0 / baud)).TotalMilliseconds, 0.001);

    [Fact]
    public void Gap_CharactersWithoutTime_IsNone() => Assert.Equal(TimeSpan.Zero, RtuTiming.Gap(TimeSpan.Zero));
}
