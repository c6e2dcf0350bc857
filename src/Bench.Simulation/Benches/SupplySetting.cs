namespace Bench.Simulation.Benches;

/// <summary>What a programmable supply is set to, as the instrument itself knows it.</summary>
/// <param name="Device">Its name in the bench file.</param>
/// <param name="VoltageV">Set voltage, volts.</param>
/// <param name="On">Whether its output is on.</param>
public readonly record struct SupplySetting(string Device, double VoltageV, bool On);
