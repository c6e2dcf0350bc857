using Bench.Model.Features;
using Bench.Reporting.Text;

namespace Bench.Tests.Reporting.Text;

public class QuantityTests
{
    // JCGM 100:2008, 7.2.2, from memory: u is quoted to two significant digits and the estimate to the same place, as in
    // m = 100.02147 g with u = 0.35 mg. With U = 2 u the sentence reads as below.
    [Theory]
    [InlineData(100.021474, 0.00035, "100.02147 ± 0.00070 A")]
    [InlineData(0.2213, 0.004, "0.2213 ± 0.0080 A")]
    [InlineData(-3.14159, 0.05, "−3.14 ± 0.10 A")]
    [InlineData(1234.5, 61, "1234 ± 122 A")]
    [InlineData(0.0004, 0.2, "0.00 ± 0.40 A")]
    public void Of_ValueWithUncertainty_HasDigitsAsFineAsU(double value, double standard, string expected) =>
        Assert.Equal(Joined(expected), Quantity.Of(Feature.Of("current.running_a", value, standard, 10)));

    [Fact]
    public void Of_ExactCount_HasNoUncertainty() => Assert.Equal("6", Quantity.Of(Feature.Of("ring.dead_counts", 6, 0, 1)));

    [Fact]
    public void Of_MissingValue_IsADash() => Assert.Equal("–", Quantity.Of(Feature.Missing("ring.dead_counts", "nothing was read")));

    [Theory]
    [InlineData(0, "0 V")]
    [InlineData(24, "24 V")]
    [InlineData(20.4, "20.4 V")]
    [InlineData(-0.00012346, "−0.0001235 V")]
    [InlineData(123456.7, "123457 V")]
    public void Of_PlainValue_HasAtMostFourSignificantDecimals(double value, string expected) =>
        Assert.Equal(Joined(expected), Quantity.Of(value, "V"));

    [Theory]
    [InlineData(0, "0 %")]
    [InlineData(1, "100 %")]
    [InlineData(0.00005, "< 0.1 %")]
    [InlineData(0.99999, "> 99.9 %")]
    [InlineData(0.873, "87.3 %")]
    public void Percent_NearTheEnds_ClaimsNeitherByRounding(double share, string expected) =>
        Assert.Equal(Joined(expected), Quantity.Percent(share));

    private static string Joined(string text) => text.Replace(' ', '\u00A0');
}
