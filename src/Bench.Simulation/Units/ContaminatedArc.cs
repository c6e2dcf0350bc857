namespace Bench.Simulation.Units;

/// <summary>An arc of the ring whose sensors are often not seen, because something lies over them that moves.</summary>
/// <param name="FirstCount">First count of the arc.</param>
/// <param name="WidthCounts">Number of counts.</param>
/// <param name="MissShare">Probability that a sensor is missed in one pass, 0 to 1.</param>
/// <param name="Persistence">Probability that a sensor shares the fate of the one passed before it, 0 to 1.</param>
public sealed record ContaminatedArc(int FirstCount, int WidthCounts, double MissShare, double Persistence);
