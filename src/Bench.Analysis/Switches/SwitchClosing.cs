namespace Bench.Analysis.Switches;

/// <summary>One port's switch, closed for a while in a move.</summary>
/// <param name="Count">Count of its port.</param>
/// <param name="Closed">When it closed; null when it was closed already, or a reading before it is doubtful.</param>
/// <param name="Opened">When it opened; null when it had not by the end, or a reading after it is doubtful.</param>
internal sealed record SwitchClosing(int Count, SwitchEdge? Closed, SwitchEdge? Opened);
