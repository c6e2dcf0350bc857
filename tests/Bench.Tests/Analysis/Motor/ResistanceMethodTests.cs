using Bench.Analysis.Motor;

namespace Bench.Tests.Analysis.Motor;

public class ResistanceMethodTests
{
    // t2 = R2/R1 (235 + t1) - 235 (IEC 60034-1, 8.6.2.3, from memory), worked by hand.
    [Theory]
    [InlineData(1.0, 1.0, 20, 0)]
    [InlineData(1.0, 1.2, 20, 51)]
    [InlineData(12.0, 15.0, 25, 65)]
    public void Rise_OfCopper_IsByHand(double cold, double warm, double celsius, double rise) =>
        Assert.Equal(rise, ResistanceMethod.RiseK(cold, warm, celsius), 9);

    // IEC 60028 (from memory): 0.00393 a kelvin at 20 °C; 235 + 20 is its reciprocal but for rounding.
    [Fact]
    public void PerOhm_AtTwentyDegrees_IsTheReciprocalOfCopperCoefficient() => Assert.Equal(0.00393, 1 / ResistanceMethod.PerOhmK(1, 20), 4);
}
