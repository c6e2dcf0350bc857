using Bench.Simulation.Chance;

namespace Bench.Simulation.Conditions;

/// <summary>A fault of the bench, not of the unit: its supply gives less than any unit may be tested at.</summary>
public sealed class LowBenchSupply : ICondition
{
    /// <inheritdoc/>
    public string Id => "low-bench-supply";

    /// <inheritdoc/>
    public string Title => "the bench's supply is too low";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        return healthy with { Supply = healthy.Supply with { OpenV = random.Between(18.0, 19.5) } };
    }
}
