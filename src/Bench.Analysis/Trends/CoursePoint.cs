namespace Bench.Analysis.Trends;

/// <summary>One value of a course over a run.</summary>
/// <param name="Group">What it can be compared with: values of one group differ by course and scatter alone (one port from one side).</param>
/// <param name="Move">Number of the move.</param>
/// <param name="Value">The value, finite.</param>
public readonly record struct CoursePoint(string Group, int Move, double Value);
