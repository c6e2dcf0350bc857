using Bench.Analysis.Trends;

namespace Bench.Campaigns.Checks.Recordings;

/// <summary>Where the strokes of recorded rotary actuators ended (fixtures/recordings/rotary-actuator-moves/ends.csv).</summary>
public static class ActuatorEnds
{
    /// <summary>Scatter of one end at least: the recordings' own noise at rest is about one count.</summary>
    public const double Resolution = 1;

    /// <summary>The ends of one unit in order, each side a group of its own.</summary>
    public static IReadOnlyList<CoursePoint> Of(string unit) =>
        [.. File.ReadLines(CheckData.PathOf(Path.Combine("fixtures", "recordings", "rotary-actuator-moves", "ends.csv"))).Skip(1)
            .Select(l => l.Split(','))
            .Where(c => c[0] == unit)
            .Select(c => new CoursePoint(c[3], (int)CheckData.Number(c[2]), CheckData.Number(c[5])))];
}
