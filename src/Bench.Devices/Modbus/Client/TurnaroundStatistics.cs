namespace Bench.Devices.Modbus.Client;

/// <summary>
/// How long a device takes between the end of a request and the beginning of its answer, over its latest
/// <see cref="Turnaround.Window"/> answers. On RTU the silence that ends the request is part of it.
/// </summary>
/// <param name="Answers">Answers these figures rest on; with 0 both are zero and mean nothing.</param>
/// <param name="Median">Median.</param>
/// <param name="Spread">
/// Spread, as a standard deviation would be: interquartile range / 1.349, its ratio for a normal distribution
/// (NIST/SEMATECH e-Handbook, 1.3.5.6). A few late answers do not move it.
/// </param>
public readonly record struct TurnaroundStatistics(int Answers, TimeSpan Median, TimeSpan Spread);
