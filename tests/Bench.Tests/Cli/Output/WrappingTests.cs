using Bench.Cli.Output;

namespace Bench.Tests.Cli.Output;

public class WrappingTests
{
    [Theory]
    [InlineData(null, "  - one two three four")]
    [InlineData(40, "  - one two three four")]
    [InlineData(13, "  - one two\n    three\n    four")]
    [InlineData(22, "  - one two three four")]
    [InlineData(21, "  - one two three\n    four")]
    [InlineData(5, "  - one\n    two\n    three\n    four")]
    public void Of_Width_BreaksBetweenWordsAndHangs(int? width, string lines) =>
        Assert.Equal(lines, Wrapping.Of("  - ", "one two three four", width));
}
