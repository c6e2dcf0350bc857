using Bench.Analysis.Statistics;

namespace Bench.Analysis.Positioning;

/// <summary>Mean and deviation of the runs to one target from one side (ISO 230-2:2014).</summary>
/// <param name="Mean">Mean positional deviation x̄_i.</param>
/// <param name="Deviation">Estimator of the standard uncertainty of positioning s_i: sample standard deviation, n - 1; null of one run.</param>
/// <param name="Runs">Number of runs, at least one.</param>
public readonly record struct DirectionStatistics(double Mean, double? Deviation, int Runs)
{
    /// <summary>Unidirectional repeatability at the target, 4 s_i; null of one run.</summary>
    public double? Repeatability => 4 * Deviation;

    /// <summary>x̄_i + 2 s_i; null of one run.</summary>
    public double? Highest => Mean + (2 * Deviation);

    /// <summary>x̄_i - 2 s_i; null of one run.</summary>
    public double? Lowest => Mean - (2 * Deviation);

    /// <summary>Statistics of the deviations seen.</summary>
    /// <param name="runs">Deviations from target, actual minus commanded, at least one, all finite.</param>
    /// <exception cref="ArgumentException">There is no run.</exception>
    public static DirectionStatistics Of(ReadOnlySpan<double> runs) =>
        new(Describe.Mean(runs), runs.Length < 2 ? null : Describe.StandardDeviation(runs), runs.Length);
}
