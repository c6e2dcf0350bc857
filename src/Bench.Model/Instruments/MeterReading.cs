namespace Bench.Model.Instruments;

/// <summary>One reading of a unit position's meters and inputs, in engineering units, or the fault that prevented it.</summary>
/// <param name="Fault">Why there is no reading; null when there is one. Then the values below are zero and mean nothing.</param>
/// <param name="CurrentA">Supply current into the unit, amperes.</param>
/// <param name="VoltageV">Supply voltage at the bench's terminals, volts.</param>
/// <param name="Index">State of the input fixed to the valve shaft; null where the bench has none.</param>
/// <param name="EmergencyStop">True when the emergency stop is pressed; null where the bench has no such input.</param>
/// <param name="At">Best estimate of the instant of measurement, a <see cref="TimeProvider"/> timestamp.</param>
/// <param name="AtUncertainty">Half-width of that instant, in seconds (rectangular); 0 where the device does not tell.</param>
public readonly record struct MeterReading(
    DeviceFault? Fault, double CurrentA, double VoltageV, bool? Index, bool? EmergencyStop, long At, double AtUncertainty = 0)
{
    /// <summary>Whether the values are a reading.</summary>
    public bool Ok => Fault is null;
}
