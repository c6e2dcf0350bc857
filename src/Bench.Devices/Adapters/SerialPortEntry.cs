namespace Bench.Devices.Adapters;

/// <summary>A serial port of this machine.</summary>
/// <param name="Port">What to write in the bench file: a path that stays when ports are renumbered, where there is one.</param>
/// <param name="Device">The port it stands for now, e.g. <c>/dev/ttyUSB0</c> or <c>COM3</c>.</param>
/// <param name="IsStable">Whether <paramref name="Port"/> stays when ports are renumbered.</param>
public sealed record SerialPortEntry(string Port, string Device, bool IsStable);
