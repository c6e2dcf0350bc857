using Bench.Simulation.Chance;

namespace Bench.Simulation.Conditions;

/// <summary>A bus with a bad end or a disturbing neighbour; it hits board and feedback alike.</summary>
public sealed class NoisyLink : ICondition
{
    /// <inheritdoc/>
    public string Id => "noisy-link";

    /// <inheritdoc/>
    public string Title => "the bus damages or loses frames";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        return healthy with { LineErrorShare = random.Between(0.05, 0.07) };
    }
}
