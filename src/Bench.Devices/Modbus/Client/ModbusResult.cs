using Bench.Model.Instruments;

namespace Bench.Devices.Modbus.Client;

/// <summary>What became of one exchange. A value, because a lost answer on a poll loop is no exception.</summary>
/// <param name="Fault">How it failed; null when it did not.</param>
/// <param name="Exception">The device's reason when it refused.</param>
/// <param name="At">
/// Best estimate of the instant the device carried the request out, a <see cref="TimeProvider"/> timestamp: the middle
/// between the end of the request on the wire and the beginning of the answer. Only with an answer.
/// </param>
/// <param name="AtUncertainty">Half-width of that instant, seconds: half the device's turnaround (rectangular).</param>
/// <param name="RoundTrip">From handing over the request to the answer's last byte.</param>
public readonly record struct ModbusResult(
    DeviceFaultKind? Fault, ExceptionCode Exception, long At, double AtUncertainty, TimeSpan RoundTrip)
{
    /// <summary>Whether the device did what was asked.</summary>
    public bool Ok => Fault is null;

    /// <summary>An exchange that failed.</summary>
    public static ModbusResult Failed(DeviceFaultKind kind, ExceptionCode exception = ExceptionCode.None) =>
        new(kind, exception, 0, 0, TimeSpan.Zero);
}
