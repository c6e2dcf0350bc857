namespace Bench.Campaigns.Wire;

/// <summary>A whole frame with the address and function of the request on its way reached the program.</summary>
public readonly record struct Answered(double TimeS, int Unit);
