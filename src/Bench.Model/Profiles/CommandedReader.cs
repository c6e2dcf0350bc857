using Bench.Model.Configuration;
using Bench.Model.Rings;

namespace Bench.Model.Profiles;

/// <summary>Reads what a profile says of a unit that closes its own loop.</summary>
internal static class CommandedReader
{
    private const string Key = "landing_tolerance_counts";

    /// <summary>Reads <c>landing_tolerance_counts</c>; null for a unit that the bench drives itself.</summary>
    public static double? Read(Section unit, DriveKind? drive, FeedbackKind? feedback, int? counts)
    {
        if (drive is not DriveKind.Commanded)
        {
            if (drive is not null && unit.Has(Key))
            {
                unit.Refuse(Key, null, "only for drive = \"commanded\"; remove it");
            }

            return null;
        }

        if (feedback is FeedbackKind.Incremental or FeedbackKind.Switches)
        {
            unit.Refuse("feedback", null, "a commanded unit is told a count of its own ring and watched by it; allowed: \"ring\"");
        }

        double? tolerance = unit.Number(Key, NumberRange.Positive(Ring.MostCounts));
        if (tolerance >= counts / 4.0)
        {
            unit.Refuse(Key, null, "less than a quarter of ring_counts is allowed");
        }

        return tolerance;
    }
}
