namespace Bench.Analysis.Motor;

/// <summary>A fitted number with what the scatter of the points leaves open.</summary>
/// <param name="Value">The estimate.</param>
/// <param name="StandardError">Its standard error.</param>
/// <param name="HalfWidth">Half width of its two-sided interval by Student's t.</param>
public readonly record struct Estimate(double Value, double StandardError, double HalfWidth);
