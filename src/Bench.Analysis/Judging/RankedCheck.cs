using Bench.Model.Judging;
using Bench.Model.Profiles;

namespace Bench.Analysis.Judging;

/// <summary>A check by hand and what it is worth.</summary>
/// <param name="Mode">The fault mode it tells from the rest.</param>
/// <param name="Rival">The likeliest cause among the rest; null when there is none.</param>
/// <param name="Bits">Expected reduction of the entropy of the causes, bits.</param>
/// <param name="Minutes">Minutes it takes; null where the profile does not say.</param>
public sealed record RankedCheck(FaultMode Mode, Cause? Rival, double Bits, double? Minutes);
