namespace Bench.Simulation.Benches;

/// <summary>A board's watchdog switched outputs off.</summary>
/// <param name="Device">Name of the board.</param>
/// <param name="At">When.</param>
/// <param name="Outputs">How many outputs were on.</param>
public sealed record WatchdogDrop(string Device, DateTimeOffset At, int Outputs);
