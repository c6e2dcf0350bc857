namespace Bench.Model.BenchFiles;

/// <summary>An input that is closed while the unit stands at a port.</summary>
/// <param name="Port">Name of the port, as in the unit's profile.</param>
/// <param name="Input">Where the input is read.</param>
public sealed record PortSwitch(string Port, Channel Input);
