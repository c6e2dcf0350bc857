using Bench.Simulation.Benches;

namespace Bench.Campaigns.Wire;

/// <summary>A relay's coil changed, as seen at the plant.</summary>
public readonly record struct Switched(double TimeS, OutputChange Change);
