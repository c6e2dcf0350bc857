namespace Bench.Model.Features;

/// <summary>What a sequential test does to units of one true share of failing moves; the three chances add up to 1.</summary>
/// <param name="Share">True share of failing moves, 0 to 1.</param>
/// <param name="Shown">Chance that the demonstration is reached.</param>
/// <param name="Refuted">Chance that it is refuted.</param>
/// <param name="Truncated">Chance that the greatest number of moves ends it undecided.</param>
/// <param name="ExpectedMoves">Mean number of moves to the decision or the truncation.</param>
public sealed record PlanPoint(double Share, double Shown, double Refuted, double Truncated, double ExpectedMoves);
