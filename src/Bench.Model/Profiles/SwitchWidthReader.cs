using System.Globalization;
using Bench.Model.Configuration;
using Bench.Model.Rings;

namespace Bench.Model.Profiles;

/// <summary>Reads <c>switch_width_counts</c>: over which arc a port's switch is closed.</summary>
internal static class SwitchWidthReader
{
    private const string Key = "switch_width_counts";

    /// <summary>Reads it; null for a family without port switches.</summary>
    public static double? Read(Section unit, FeedbackKind? feedback, IReadOnlyList<Port> ports, int? counts)
    {
        if (feedback is FeedbackKind.Ring or FeedbackKind.Incremental && unit.Has(Key))
        {
            unit.Refuse(Key, null, "only for feedback = \"switches\"; remove it");
            return null;
        }

        double? width = unit.Number(Key, NumberRange.Positive(Ring.MostCounts), required: feedback == FeedbackKind.Switches);
        if (counts is int n && ports.Count >= 2 && width is double w)
        {
            // Half of the shortest way between two ports stays open, else passing one can't be told from standing at the next.
            Ring ring = new(n);
            int shortest = ports.Select((p, i) => ring.Travel(p.Count, ports[(i + 1) % ports.Count].Count, up: true)).Min();
            if (2 * w > shortest)
            {
                unit.Refuse(Key, null, string.Create(CultureInfo.InvariantCulture, $"at most {shortest / 2.0} is allowed, half of the shortest way between two ports"));
            }
        }

        return width;
    }
}
