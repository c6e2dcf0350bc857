using System.Globalization;
using Bench.Cli.Verbs;

namespace Bench.Tests.Cli.Verbs;

public sealed class DateMomentTests
{
    /// <summary>RFC 3339, section 5.8 (its examples), and section 5.6: the letters may be lower case.</summary>
    [Theory]
    [InlineData("1985-04-12T23:20:50.52Z", "1985-04-12T23:20:50.5200000+00:00")]
    [InlineData("1996-12-19T16:39:57-08:00", "1996-12-20T00:39:57.0000000+00:00")]
    [InlineData("1937-01-01T12:00:27.87+00:20", "1937-01-01T11:40:27.8700000+00:00")]
    [InlineData("2026-06-30t08:00:00z", "2026-06-30T08:00:00.0000000+00:00")]
    public void BeginAndEnd_OfAnInstant_AreThatInstant(string text, string utc)
    {
        Assert.Equal(utc, Utc(DateMoment.BeginOf(text)));
        Assert.Equal(utc, Utc(DateMoment.EndOf(text)));
    }

    [Fact]
    public void BeginAndEnd_OfADate_TakeItsWholeDayIn()
    {
        Assert.Equal("2024-02-29T00:00:00.0000000+00:00", Utc(DateMoment.BeginOf("2024-02-29")));
        Assert.Equal("2024-03-01T00:00:00.0000000+00:00", Utc(DateMoment.EndOf("2024-02-29")));
        Assert.NotNull(DateMoment.EndOf("9999-12-31"));
    }

    [Theory]
    [InlineData("")]
    [InlineData("2026-02-29")]
    [InlineData("2026-06-30T08:00:00")]
    [InlineData("2026-06-30 08:00:00Z")]
    [InlineData("30.06.2026")]
    [InlineData("06/30/2026")]
    [InlineData("yesterday")]
    public void Begin_OfWhatIsNeither_IsNone(string text) => Assert.Null(DateMoment.BeginOf(text));

    private static string Utc(DateTimeOffset? at) => at!.Value.ToUniversalTime().ToString("O", CultureInfo.InvariantCulture);
}
