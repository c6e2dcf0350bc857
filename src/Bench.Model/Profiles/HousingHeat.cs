namespace Bench.Model.Profiles;

/// <summary>How a motor's housing heats: it takes up for minutes what the winding has lost.</summary>
/// <param name="ThermalKPerW">Thermal resistance from housing to ambient, kelvins per watt.</param>
/// <param name="TimeConstantS">Time constant of the housing, seconds; longer than the winding's.</param>
public sealed record HousingHeat(double ThermalKPerW, double TimeConstantS);
