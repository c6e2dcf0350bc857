using Bench.Model.Instruments;

namespace Bench.Devices.Lines;

/// <summary>What became of one exchange of lines. A value, because a lost answer on a poll loop is no exception.</summary>
/// <param name="Fault">How it failed; null when it did not.</param>
/// <param name="Text">The answer without its terminator and outer blanks; empty when none was asked for or none came.</param>
/// <param name="At">
/// Best estimate of the instant the device carried the request out, a <see cref="TimeProvider"/> timestamp: the middle
/// between the end of the request on the wire and the beginning of the answer.
/// </param>
/// <param name="AtUncertainty">Half-width of that instant, seconds (rectangular).</param>
/// <param name="RoundTrip">From handing over the request to the answer's last byte.</param>
public readonly record struct LineResult(DeviceFaultKind? Fault, string Text, long At, double AtUncertainty, TimeSpan RoundTrip)
{
    /// <summary>Whether the device did what was asked.</summary>
    public bool Ok => Fault is null;

    /// <summary>An exchange that failed.</summary>
    public static LineResult Failed(DeviceFaultKind kind, string text = "") => new(kind, text, 0, 0, TimeSpan.Zero);
}
