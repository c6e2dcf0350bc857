namespace Bench.Simulation.Units;

/// <summary>An arc of the valve with more friction, rising to its middle.</summary>
/// <param name="MiddleCount">Its middle on the valve's circle, counts.</param>
/// <param name="WidthCounts">Its width, counts.</param>
/// <param name="ExtraShare">Extra friction at its middle, as a share of the valve's friction.</param>
public sealed record TightSpot(double MiddleCount, double WidthCounts, double ExtraShare);
