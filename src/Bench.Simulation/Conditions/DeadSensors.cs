using Bench.Simulation.Chance;

namespace Bench.Simulation.Conditions;

/// <summary>Sensors that never answer: the count before them stays until the next sound one is passed.</summary>
public sealed class DeadSensors : ICondition
{
    private const int Least = 2;
    private const int Most = 6;

    /// <inheritdoc/>
    public string Id => "dead-sensors";

    /// <inheritdoc/>
    public string Title => "2 to 6 sensors of the ring do not answer";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        HashSet<int> dead = [];
        int wanted = random.Whole(Least, Most);
        while (dead.Count < wanted)
        {
            dead.Add(random.Whole(0, healthy.Unit.Ring.Counts - 1));
        }

        return healthy with
        {
            Unit = healthy.Unit with { Encoder = healthy.Unit.Encoder with { DeadCounts = [.. dead.Order()] } },
        };
    }
}
