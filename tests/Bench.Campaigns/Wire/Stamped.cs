using Bench.Model.Runs;

namespace Bench.Campaigns.Wire;

/// <summary>An event, and when the journal was given it on the bench's clock.</summary>
public readonly record struct Stamped(double TimeS, RunEvent Event);
