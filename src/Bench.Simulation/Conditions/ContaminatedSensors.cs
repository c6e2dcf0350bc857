using Bench.Simulation.Chance;
using Bench.Simulation.Units;

namespace Bench.Simulation.Conditions;

/// <summary>Dirt or moisture over an arc of the ring: which sensors are seen changes from pass to pass.</summary>
public sealed class ContaminatedSensors : ICondition
{
    /// <inheritdoc/>
    public string Id => "contaminated-sensors";

    /// <inheritdoc/>
    public string Title => "an arc of the ring is covered and often not seen";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        ContaminatedArc arc = new(
            random.Whole(0, healthy.Unit.Ring.Counts - 1), random.Whole(30, 90), random.Between(0.6, 0.9), Persistence: 0.5);
        return healthy with
        {
            Unit = healthy.Unit with { Encoder = healthy.Unit.Encoder with { Contaminated = arc } },
        };
    }
}
