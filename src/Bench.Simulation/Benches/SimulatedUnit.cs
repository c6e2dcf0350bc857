using Bench.Model.Profiles;
using Bench.Simulation.Conditions;
using Bench.Simulation.Mismatch;

namespace Bench.Simulation.Benches;

/// <summary>One unit to put into a position of a simulated bench.</summary>
/// <param name="Profile">Its family.</param>
/// <param name="Condition">What is wrong with it, or with its bench.</param>
/// <param name="Seed">Which unit of the family it is, how badly the condition befell it, and what happens while it runs.</param>
/// <param name="Mismatch">How it and its bench depart from the ordinary model; null for not at all.</param>
public sealed record SimulatedUnit(Profile Profile, ICondition Condition, ulong Seed, ModelMismatch? Mismatch = null);
