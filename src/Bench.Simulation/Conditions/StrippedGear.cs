using Bench.Simulation.Chance;

namespace Bench.Simulation.Conditions;

/// <summary>Teeth that carry almost nothing: the motor runs nearly free and the valve stands still.</summary>
public sealed class StrippedGear : ICondition
{
    /// <inheritdoc/>
    public string Id => "stripped-gear";

    /// <inheritdoc/>
    public string Title => "a gear has lost its teeth";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        return healthy with
        {
            Unit = healthy.Unit with
            {
                Gear = healthy.Unit.Gear with { TransmitsNm = random.Between(0.03, 0.12) * healthy.Unit.Valve.FrictionNm },
            },
        };
    }
}
