using Bench.Simulation.Chance;

namespace Bench.Simulation.Conditions;

/// <summary>A loose ring: every revolution leaves its zero a little further on.</summary>
public sealed class DriftingZero : ICondition
{
    /// <inheritdoc/>
    public string Id => "drifting-zero";

    /// <inheritdoc/>
    public string Title => "the ring of sensors walks on its hub";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        double perRevolution = random.Between(0.3, 0.5) * (random.Happens(0.5) ? 1.0 : -1.0);
        return healthy with
        {
            Unit = healthy.Unit with { Encoder = healthy.Unit.Encoder with { CreepCountsPerRevolution = perRevolution } },
        };
    }
}
