namespace Bench.Analysis.Switches;

/// <summary>Arc over which a port's switch was closed in one whole pass.</summary>
/// <param name="Port">Number of the port, from 0 in order of count.</param>
/// <param name="Counts">The arc, counts.</param>
/// <param name="Uncertainty">Standard uncertainty, counts: both edges lie between two readings.</param>
internal readonly record struct SwitchWidth(int Port, double Counts, double Uncertainty);
