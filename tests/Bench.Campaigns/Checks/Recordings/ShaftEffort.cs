using Bench.Analysis.Statistics;
using Bench.Analysis.Trends;

namespace Bench.Campaigns.Checks.Recordings;

/// <summary>Effort of a recorded shaft that a brake loads (fixtures/recordings/loaded-shaft/effort.csv).</summary>
/// <param name="Points">Medians of blocks of <see cref="Block"/> samples, numbered from 0.</param>
/// <param name="Changes">Samples at which the brake was changed, by the label.</param>
public sealed record ShaftEffort(IReadOnlyList<CoursePoint> Points, IReadOnlyList<int> Changes)
{
    /// <summary>Samples in a block, a quarter of a second.</summary>
    public const int Block = 15;

    /// <summary>Scatter of a block's median at least: the last digit recorded.</summary>
    public const double Resolution = 0.01;

    /// <summary>The stretch of one run.</summary>
    public static ShaftEffort Of(string run)
    {
        string[][] rows = [.. File.ReadLines(CheckData.PathOf(Path.Combine("fixtures", "recordings", "loaded-shaft", "effort.csv")))
            .Skip(1).Select(l => l.Split(',')).Where(c => c[0] == run)];
        double[] effort = [.. rows.Select(c => CheckData.Number(c[4]))];
        return new ShaftEffort(
            [.. effort.Chunk(Block).Where(c => c.Length == Block).Select((c, i) => new CoursePoint("shaft", i, Robust.Median(c)))],
            [.. Enumerable.Range(1, rows.Length - 1).Where(i => rows[i][5] != rows[i - 1][5])]);
    }
}
