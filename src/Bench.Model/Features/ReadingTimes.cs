namespace Bench.Model.Features;

/// <summary>How often and how regularly one kind of reading came while the drive was on.</summary>
public sealed record ReadingTimes
{
    /// <summary>Good readings.</summary>
    public required int Readings { get; init; }

    /// <summary>Median time from one good reading to the next in the same move, seconds; null without two in a row. What was read is never older than its interval. To one part in 8000, as the 99 % are.</summary>
    public double? MedianIntervalS { get; init; }

    /// <summary>99 % of the intervals are no longer (nearest rank), seconds.</summary>
    public double? P99IntervalS { get; init; }

    /// <summary>The longest interval, seconds; lost readings make it long.</summary>
    public double? WorstIntervalS { get; init; }

    /// <summary>
    /// 99 % of the readings were taken within this of the instant written beside them, seconds (half-width, rectangular);
    /// null where the bench does not say, or the features were made again from a stored trace.
    /// </summary>
    public double? InstantHalfWidthS { get; init; }
}
