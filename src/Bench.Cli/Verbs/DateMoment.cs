using System.Globalization;

namespace Bench.Cli.Verbs;

/// <summary>
/// Reads a time that was typed: full-date or date-time of RFC 3339, section 5.6. A time without an offset is none: nobody
/// could tell later which clock was meant. A date alone is a day of UTC.
/// </summary>
internal static class DateMoment
{
    private static readonly string[] Instants =
    [
        "yyyy-MM-dd'T'HH:mm:ss'Z'", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFF'Z'", "yyyy-MM-dd'T'HH:mm:sszzz", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFzzz",
    ];

    /// <summary>The instant, or the first of the day; null when the text is neither.</summary>
    public static DateTimeOffset? BeginOf(string text) => Day(text) ?? Instant(text);

    /// <summary>The instant, or the first after the day; null when the text is neither.</summary>
    public static DateTimeOffset? EndOf(string text) => Day(text) is { } day
        ? day < DateTimeOffset.MaxValue.AddDays(-1) ? day.AddDays(1) : DateTimeOffset.MaxValue
        : Instant(text);

    private static DateTimeOffset? Day(string text) =>
        DateTimeOffset.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset day) ? day : null;

    private static DateTimeOffset? Instant(string text) =>
        DateTimeOffset.TryParseExact(text.ToUpperInvariant(), Instants, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset at) ? at : null;
}
