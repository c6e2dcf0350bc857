using Bench.Model.Configuration;
using CsCheck;

namespace Bench.Tests.Model.Configuration;

public class NearestNameTests
{
    // Textbook pairs of Levenshtein's distance (from memory).
    [Theory]
    [InlineData("kitten", "sitting", 3)]
    [InlineData("saturday", "sunday", 3)]
    [InlineData("", "abc", 3)]
    [InlineData("same", "same", 0)]
    public void Distance_KnownPairs_Agrees(string a, string b, int expected) =>
        Assert.Equal(expected, NearestName.Distance(a, b));

    [Fact]
    public void Distance_AnyThreeWords_IsAMetric()
    {
        Gen<string> words = Gen.String[Gen.Char['a', 'd'], 0, 8];
        Gen.Select(words, words, words).Sample((a, b, c) =>
        {
            int ab = NearestName.Distance(a, b);
            Assert.Equal(ab, NearestName.Distance(b, a));
            Assert.Equal(a == b, ab == 0);
            Assert.True(NearestName.Distance(a, c) <= ab + NearestName.Distance(b, c));
        });
    }

    [Theory]
    [InlineData("dead_time", "dead_time_ms")]
    [InlineData("ded_time_ms", "dead_time_ms")]
    [InlineData("no_motion", "no_motion_ms")]
    [InlineData("x", null)]
    [InlineData("something_else_entirely", null)]
    public void Of_Misspelt_GivesTheNearestOrNone(string misspelt, string? expected) =>
        Assert.Equal(expected, NearestName.Of(misspelt, ["over_current_a", "dead_time_ms", "no_motion_ms"]));
}
