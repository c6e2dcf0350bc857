namespace Bench.Analysis.Positioning;

/// <summary>Mean and deviation of the runs to one target from one side (ISO 230-2).</summary>
/// <param name="Mean">Mean deviation.</param>
/// <param name="Deviation">Sample standard deviation, n - 1.</param>
/// <param name="Runs">Number of runs, at least two.</param>
public readonly record struct DirectionStatistics(double Mean, double Deviation, int Runs);
