using Bench.Devices.Scpi;

namespace Bench.Tests.Devices.Scpi;

public class ScpiErrorTests
{
    // Texts and numbers: scpi-parser, test_parser.c and error.h; "+0" occurs on instruments (from memory).
    [Theory]
    [InlineData("0,\"No error\"", 0, "No error")]
    [InlineData("+0,\"No error\"", 0, "No error")]
    [InlineData("-113,\"Undefined header\"", -113, "Undefined header")]
    [InlineData("-222,\"Data out of range;a \"\"limit\"\"\"", -222, "Data out of range;a \"limit\"")]
    [InlineData("0", 0, "")]
    public void TryParse_QueueEntry_GivesNumberAndWords(string text, int number, string message)
    {
        Assert.True(ScpiError.TryParse(text, out ScpiError error));
        Assert.Equal(new ScpiError(number, message), error);
    }

    [Theory]
    [InlineData("")]
    [InlineData("No error")]
    [InlineData("0.5,\"No error\"")]
    public void TryParse_Other_IsRefused(string text) => Assert.False(ScpiError.TryParse(text, out _));

    [Fact]
    public void ToString_QuotesInside_AreDoubled() => Assert.Equal("-102,\"a \"\"b\"\"\"", new ScpiError(-102, "a \"b\"").ToString());
}
