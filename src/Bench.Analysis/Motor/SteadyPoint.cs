namespace Bench.Analysis.Motor;

/// <summary>Voltage, current and speed of a motor in one steady state, or means over a stretch that begins and ends at one speed.</summary>
/// <param name="VoltageV">Voltage at the terminals, volts.</param>
/// <param name="CurrentA">Current, amperes.</param>
/// <param name="SpeedRadPerS">Speed of the motor's shaft, rad/s; 0 when held still.</param>
public readonly record struct SteadyPoint(double VoltageV, double CurrentA, double SpeedRadPerS);
