using Bench.Analysis.Statistics;

namespace Bench.Analysis.Positioning;

/// <summary>Positioning at one target, from one side or both (ISO 230-2; C3).</summary>
/// <param name="Up">Approached towards rising counts; null when it never was.</param>
/// <param name="Down">Approached towards falling counts; null when it never was.</param>
public sealed record TargetStatistics(DirectionStatistics? Up, DirectionStatistics? Down)
{
    /// <summary>Reversal value B_i: mean up minus mean down; null from one side only.</summary>
    public double? Reversal => Up is { } u && Down is { } d ? u.Mean - d.Mean : null;

    /// <summary>Mean of the sides' means.</summary>
    public double Mean => Up is { } u && Down is { } d ? (u.Mean + d.Mean) / 2 : (Up ?? Down)!.Value.Mean;

    /// <summary>Repeatability R_i: max{2s↑ + 2s↓ + |B_i|; 4s↑; 4s↓}; 4s from one side only.</summary>
    public double Repeatability
    {
        get
        {
            double up = 4 * (Up?.Deviation ?? 0);
            double down = 4 * (Down?.Deviation ?? 0);
            double both = Reversal is double b ? ((up + down) / 2) + Math.Abs(b) : 0;
            return Math.Max(both, Math.Max(up, down));
        }
    }

    /// <summary>Statistics of the deviations seen.</summary>
    /// <param name="up">Deviations from target approached upwards; none, or at least two.</param>
    /// <param name="down">Deviations from target approached downwards; none, or at least two.</param>
    /// <exception cref="ArgumentException">One single run, or none at all.</exception>
    public static TargetStatistics Of(ReadOnlySpan<double> up, ReadOnlySpan<double> down) =>
        up.IsEmpty && down.IsEmpty
            ? throw new ArgumentException("a target needs runs")
            : new TargetStatistics(Side(up), Side(down));

    private static DirectionStatistics? Side(ReadOnlySpan<double> runs) =>
        runs.IsEmpty ? null : new DirectionStatistics(Describe.Mean(runs), Describe.StandardDeviation(runs), runs.Length);
}
