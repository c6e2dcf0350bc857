namespace Bench.Simulation.Units;

/// <summary>A contact that opens now and then while the unit turns and shakes it: a Poisson process of openings.</summary>
/// <param name="MeanBetweenS">Mean turning time between openings, seconds.</param>
/// <param name="ShortestS">Shortest opening, seconds.</param>
/// <param name="LongestS">Longest opening, seconds; lengths are uniform between the two.</param>
public sealed record OpeningDesign(double MeanBetweenS, double ShortestS, double LongestS);
