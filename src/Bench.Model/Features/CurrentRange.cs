namespace Bench.Model.Features;

/// <summary>A range of current.</summary>
/// <param name="LowA">Lower end, amperes.</param>
/// <param name="HighA">Upper end, amperes.</param>
public readonly record struct CurrentRange(double LowA, double HighA);
