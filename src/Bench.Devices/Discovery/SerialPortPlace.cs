namespace Bench.Devices.Discovery;

/// <summary>A serial port of this machine.</summary>
/// <param name="Port">Its name, which may change when adapters are plugged in another order.</param>
/// <param name="StablePath">A path that stays with the adapter; null where the system has none.</param>
public sealed record SerialPortPlace(string Port, string? StablePath);
