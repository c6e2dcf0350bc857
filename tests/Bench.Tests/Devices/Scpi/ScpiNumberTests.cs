using Bench.Devices.Scpi;
using CsCheck;

namespace Bench.Tests.Devices.Scpi;

public class ScpiNumberTests
{
    // The three forms of IEEE 488.2, 8.7.2 to 8.7.4; values of scpi-parser, test_strToDouble, where they are whole answers.
    [Theory]
    [InlineData("1", 1.0)]
    [InlineData(" 1", 1.0)]
    [InlineData("10.2", 10.2)]
    [InlineData("1E3", 1000.0)]
    [InlineData("1.2E3", 1200.0)]
    [InlineData("-1.2", -1.2)]
    [InlineData("+2.40000E+01", 24.0)]
    [InlineData("-5.0e-3", -0.005)]
    [InlineData(".5", 0.5)]
    public void TryParse_Number_IsRead(string text, double expected)
    {
        Assert.True(ScpiNumber.TryParse(text, out ScpiNumber number));
        Assert.Equal(expected, number.Value, 1e-12);
        Assert.True(number.Ok);
    }

    // Special numbers: SCPI-1999 volume 1, 7.2.1.4 and 7.2.1.5 (from memory).
    [Theory]
    [InlineData("9.9E37", "over range (9.9E37)")]
    [InlineData("+9.90000000E+37", "over range (9.9E37)")]
    [InlineData("-9.9E37", "below range (-9.9E37)")]
    [InlineData("9.91E37", "it has no valid reading (9.91E37)")]
    [InlineData("+9.91000E+37", "it has no valid reading (9.91E37)")]
    public void TryParse_SpecialNumber_IsNoValue(string text, string instead)
    {
        Assert.True(ScpiNumber.TryParse(text, out ScpiNumber number));
        Assert.Equal((0.0, instead), (number.Value, number.Instead));
    }

    [Theory]
    [InlineData("")]
    [InlineData("NaN")]
    [InlineData("Infinity")]
    [InlineData("24 V")]
    [InlineData("1,2")]
    [InlineData("1E400")]
    [InlineData("OVERLOAD")]
    public void TryParse_NoNumber_IsRefused(string text) => Assert.False(ScpiNumber.TryParse(text, out _));

    [Fact]
    public void Text_AnyValue_ReadsBackWithinItsDigits() =>
        Gen.Double[-1000, 1000].Sample(value =>
            ScpiNumber.TryParse(ScpiNumber.Text(value), out ScpiNumber back) && Math.Abs(back.Value - value) <= 1e-6 * Math.Abs(value));
}
