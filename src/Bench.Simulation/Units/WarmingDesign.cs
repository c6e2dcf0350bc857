namespace Bench.Simulation.Units;

/// <summary>How a winding warms: a body of one time constant, and on top of it its housing where that is given.</summary>
/// <param name="StartRiseK">How much warmer than at 20 °C it is at rest, kelvins.</param>
/// <param name="KPerW">Thermal resistance of the winding to what surrounds it, K/W.</param>
/// <param name="TimeConstantS">Time constant of the winding, seconds.</param>
/// <param name="HousingKPerW">Thermal resistance of the housing to the room, K/W; 0 for one that stays as it is.</param>
/// <param name="HousingTimeConstantS">Time constant of the housing, seconds.</param>
public sealed record WarmingDesign(double StartRiseK, double KPerW, double TimeConstantS, double HousingKPerW = 0.0, double HousingTimeConstantS = 300.0)
{
    /// <summary>Temperature coefficient of copper's resistance at 20 °C, 1/K (IEC 60028, from memory).</summary>
    public const double Copper = 0.00393;
}
