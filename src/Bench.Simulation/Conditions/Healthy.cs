using Bench.Simulation.Chance;

namespace Bench.Simulation.Conditions;

/// <summary>A unit of the family as it left the maker, with its own spread.</summary>
public sealed class Healthy : ICondition
{
    /// <inheritdoc/>
    public string Id => "healthy";

    /// <inheritdoc/>
    public string Title => "nothing is wrong";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        return healthy;
    }
}
