namespace Bench.Simulation.Units;

/// <summary>
/// A seal or grease that sticks at rest: at each stop anew it takes a torque to break away, and then it is gone until the
/// next stop. Shares of the motor's stall torque at nominal supply, uniform between the two.
/// </summary>
/// <param name="LeastShare">Least share.</param>
/// <param name="MostShare">Greatest share; below 1 it never shows at nominal supply.</param>
public sealed record StickingDesign(double LeastShare, double MostShare);
