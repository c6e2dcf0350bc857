using Bench.Model.Instruments;

namespace Bench.Running.Exercising;

/// <summary>One output switched on for a moment and off again.</summary>
/// <param name="Direction">Which output.</param>
/// <param name="AcknowledgedMs">From handing over the command to the board's acknowledgement, ms.</param>
/// <param name="ReadBackOn">What the outputs read back while it was on.</param>
/// <param name="ReadBackOff">What they read back after switching off.</param>
/// <param name="OffConfirmedMs">From commanding off to its read-back, ms.</param>
/// <param name="CurrentOnMs">From the command to the first reading that shows current, ms: the relay's response, to one meter reading; null when none did.</param>
/// <param name="CurrentOffMs">From commanding off to the first reading that shows none, ms; null when current never flowed, or did not stop.</param>
/// <param name="PeakCurrentA">Greatest current read, amperes.</param>
/// <param name="CountsTurned">Counts the unit turned, signed; null without a unit or a reading.</param>
public sealed record OutputPulse(
    DriveDirection Direction,
    double AcknowledgedMs,
    DriveState ReadBackOn,
    DriveState ReadBackOff,
    double OffConfirmedMs,
    double? CurrentOnMs,
    double? CurrentOffMs,
    double PeakCurrentA,
    int? CountsTurned);
