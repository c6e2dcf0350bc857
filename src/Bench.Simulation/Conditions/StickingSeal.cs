using Bench.Simulation.Chance;
using Bench.Simulation.Units;

namespace Bench.Simulation.Conditions;

/// <summary>A seal or old grease that sticks while the unit rests. At nominal supply the motor always breaks it loose; at the least supply it often does not.</summary>
public sealed class StickingSeal : ICondition
{
    /// <inheritdoc/>
    public string Id => "sticking-seal";

    /// <inheritdoc/>
    public string Title => "a seal that sticks at rest: it breaks away at nominal supply, at the least supply often not";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        return healthy with
        {
            Unit = healthy.Unit with
            {
                Sticking = new StickingDesign(random.Between(0.50, 0.60), random.Between(0.91, 0.95)),
            },
        };
    }
}
