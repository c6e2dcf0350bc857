namespace Bench.Model.Features;

/// <summary>What the test on moves does to units of one true share of failing moves, known before the first move (C11).</summary>
/// <param name="FailingShare">True share of failing moves, 0 to 1.</param>
/// <param name="Shown">Chance that the demonstration is reached, 0 to 1.</param>
/// <param name="Refuted">Chance that it is refuted.</param>
/// <param name="Undecided">Chance that the greatest number of moves ends it undecided.</param>
/// <param name="ExpectedMoves">Mean number of moves to the end of the test.</param>
public sealed record PlanPoint(double FailingShare, double Shown, double Refuted, double Undecided, double ExpectedMoves);
