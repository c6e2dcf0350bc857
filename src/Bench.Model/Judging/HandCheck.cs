namespace Bench.Model.Judging;

/// <summary>A check by hand that would tell causes apart, and what it is worth (C13).</summary>
/// <param name="Cause">Id of the cause it tells from the rest.</param>
/// <param name="Check">What to do.</param>
/// <param name="Expect">What it shows if that is the cause; null where the profile does not say.</param>
/// <param name="Tells">What it tells from what, in words.</param>
/// <param name="Bits">Expected reduction of the entropy of the causes, bits.</param>
/// <param name="Minutes">Minutes it takes; null where the profile does not say.</param>
public sealed record HandCheck(string Cause, string Check, string? Expect, string Tells, double Bits, double? Minutes);
