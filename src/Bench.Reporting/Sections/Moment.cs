using System.Globalization;

namespace Bench.Reporting.Sections;

/// <summary>Dates and times in the form of ISO 8601, with the offset they were recorded with.</summary>
internal static class Moment
{
    public static string Of(DateTimeOffset time) => time.ToString("yyyy-MM-dd HH:mm:ss zzz", CultureInfo.InvariantCulture);

    public static string Of(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>A duration in minutes and seconds.</summary>
    public static string Of(TimeSpan duration) => string.Create(
        CultureInfo.InvariantCulture, $"{(long)duration.TotalMinutes} min {duration.Seconds} s");
}
