namespace Bench.Analysis.Switches;

/// <summary>A port that a move surely passed.</summary>
/// <param name="Port">Number of the port, from 0 in order of count.</param>
/// <param name="Sighted">Whether its switch was seen closed.</param>
/// <param name="Probability">Probability that a healthy switch is seen in such a pass, 0 to 1.</param>
internal readonly record struct SwitchPass(int Port, bool Sighted, double Probability);
