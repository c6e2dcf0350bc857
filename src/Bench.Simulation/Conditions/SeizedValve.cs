using Bench.Simulation.Chance;

namespace Bench.Simulation.Conditions;

/// <summary>A valve that asks for more torque than the motor has; the shafts before it still turn through their play.</summary>
public sealed class SeizedValve : ICondition
{
    /// <inheritdoc/>
    public string Id => "seized-valve";

    /// <inheritdoc/>
    public string Title => "the valve is stuck";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        // Above what the motor has, below what the coupling holds.
        return healthy with
        {
            Unit = healthy.Unit with
            {
                Valve = healthy.Unit.Valve with { FrictionNm = random.Between(1.5, 3.0) * healthy.Unit.StallTorqueAtShaftNm },
            },
        };
    }
}
