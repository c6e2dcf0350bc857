namespace Bench.Campaigns.Wire;

/// <summary>What the supply itself was set to from an instant on.</summary>
/// <param name="TimeS">The instant, seconds.</param>
/// <param name="VoltageV">Set voltage, volts.</param>
/// <param name="On">Whether its output was on.</param>
public readonly record struct SupplyState(double TimeS, double VoltageV, bool On);
