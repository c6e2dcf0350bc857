using Bench.Analysis.Trends;
using Bench.Model.Features;

namespace Bench.Campaigns.Checks.Recordings;

/// <summary>The feature code on open recordings of other people's machines, against their labels and other code's numbers.</summary>
internal static class RecordingChecks
{
    private static readonly (string Unit, double Slope)[] Slopes =
        [("Act_1", 0.3), ("Act_2", 0), ("Act_3", 0), ("Act_4", -20.79788961038961), ("Act_5", -16.375), ("Act_6", -1.0 / 6)];

    // Median of the last 300 samples, and 0.8 of the travel over the time between 10 % and 90 % of it, per sample.
    private static readonly (string Stroke, double End, double Speed)[] Strokes =
    [
        ("Act_1:2", 7333, -10.375757575757575), ("Act_1:3", 11619, 10.268263473053894), ("Act_1:4", 7335, -10.22089552238806),
        ("Act_1:5", 11631, 10.112941176470589), ("Act_3:0", 8950, 12.183098591549296), ("Act_3:1", 4629, -12.120701754385966),
        ("Act_4:0", 8786, 11.836678200692042), ("Act_4:1", 4366, -12.145704467353951),
    ];

    /// <summary>The checks.</summary>
    public static IEnumerable<Check> All()
    {
        const string pairs = "recorded; NumPy median of pair slopes";
        foreach ((string unit, double slope) in Slopes)
        {
            GroupedTrend trend = GroupedTrend.Of(ActuatorEnds.Of(unit).GroupBy(p => p.Group).Select(g => g.Select(p => ((double)p.Move, p.Value)).ToArray()))!.Value;
            yield return new("trend of ends, sides apart", unit, pairs, slope, trend.Slope, 14);
        }

        Dictionary<string, ActuatorStroke> strokes = ActuatorStroke.All().ToDictionary(s => s.Name);
        foreach ((string stroke, double end, double speed) in Strokes)
        {
            MoveFeatures features = strokes[stroke].Features();
            yield return new("count at rest", stroke, "recorded; NumPy median of the last 300", end, features.LandingCount ?? double.NaN, 3.3);
            yield return new("speed while turning", stroke, "recorded; 80 % of travel over its time", speed * ActuatorStroke.RateHz, features.SpeedCountsPerS ?? double.NaN, 1.3);
        }

        ShaftEffort braked = ShaftEffort.Of("428");
        RunCourse course = RunCourse.Of(braked.Points, ShaftEffort.Resolution).Course!;
        yield return new("change of effort, at sample", "braked shaft 428", "label of the recording", braked.Changes[0], (course.FirstMove * ShaftEffort.Block) ?? double.NaN, 1.5);
    }
}
