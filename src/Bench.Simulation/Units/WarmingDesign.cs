namespace Bench.Simulation.Units;

/// <summary>How a winding warms: one body of one time constant.</summary>
/// <param name="StartRiseK">How much warmer than at 20 °C it is at rest, kelvins.</param>
/// <param name="KPerW">Thermal resistance to the surroundings, K/W.</param>
/// <param name="TimeConstantS">Time constant, seconds.</param>
public sealed record WarmingDesign(double StartRiseK, double KPerW, double TimeConstantS)
{
    /// <summary>Temperature coefficient of copper's resistance at 20 °C, 1/K (IEC 60028, from memory).</summary>
    public const double Copper = 0.00393;
}
