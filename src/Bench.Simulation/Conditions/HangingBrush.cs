using Bench.Simulation.Chance;

namespace Bench.Simulation.Conditions;

/// <summary>A brush that hangs in its holder at some stops: the next start gets no current. Once it turns it keeps turning.</summary>
public sealed class HangingBrush : ICondition
{
    /// <inheritdoc/>
    public string Id => "hanging-brush";

    /// <inheritdoc/>
    public string Title => "a brush hangs at some stops, so that the next start fails";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        return healthy with
        {
            Unit = healthy.Unit with { Motor = healthy.Unit.Motor with { HangingShare = random.Between(0.03, 0.08) } },
        };
    }
}
