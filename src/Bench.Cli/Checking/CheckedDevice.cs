using Bench.Devices.Positions;

namespace Bench.Cli.Checking;

/// <summary>A device of a bench, how it answered, and how good that is.</summary>
/// <param name="Check">How it answered.</param>
/// <param name="OfUnit">Whether it is a unit's own feedback.</param>
/// <param name="Graded">The grade.</param>
internal sealed record CheckedDevice(DeviceCheck Check, bool OfUnit, Graded Graded);
