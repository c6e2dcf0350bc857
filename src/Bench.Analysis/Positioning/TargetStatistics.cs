namespace Bench.Analysis.Positioning;

/// <summary>Positioning at one target, from one side or both (ISO 230-2:2014; C3).</summary>
/// <param name="Up">Approached towards rising counts; null when it never was.</param>
/// <param name="Down">Approached towards falling counts; null when it never was.</param>
public sealed record TargetStatistics(DirectionStatistics? Up, DirectionStatistics? Down)
{
    /// <summary>Reversal value B_i: mean up minus mean down; null from one side only.</summary>
    public double? Reversal => Up is { } u && Down is { } d ? u.Mean - d.Mean : null;

    /// <summary>Mean bidirectional positional deviation x̄_i: mean of the sides' means, however often each was run; of one side, its mean.</summary>
    public double Mean => Up is { } u && Down is { } d ? (u.Mean + d.Mean) / 2 : (Up ?? Down)!.Value.Mean;

    /// <summary>
    /// Repeatability R_i: max{2s↑ + 2s↓ + |B_i|; 4s↑; 4s↓}; 4s from one side only; null when a side has but one run.
    /// </summary>
    public double? Repeatability
    {
        get
        {
            if (Up is not { } up || Down is not { } down)
            {
                return (Up ?? Down)!.Value.Repeatability;
            }

            return up.Repeatability is double u && down.Repeatability is double d
                ? Math.Max(((u + d) / 2) + Math.Abs(up.Mean - down.Mean), Math.Max(u, d))
                : null;
        }
    }

    /// <summary>Statistics of the deviations seen.</summary>
    /// <param name="up">Deviations from target approached upwards; may be none.</param>
    /// <param name="down">Deviations from target approached downwards; may be none.</param>
    /// <exception cref="ArgumentException">There is no run at all.</exception>
    public static TargetStatistics Of(ReadOnlySpan<double> up, ReadOnlySpan<double> down) =>
        up.IsEmpty && down.IsEmpty
            ? throw new ArgumentException("a target needs runs")
            : new TargetStatistics(
                up.IsEmpty ? null : DirectionStatistics.Of(up),
                down.IsEmpty ? null : DirectionStatistics.Of(down));
}
