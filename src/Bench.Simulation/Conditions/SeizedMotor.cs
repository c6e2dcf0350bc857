using Bench.Simulation.Chance;

namespace Bench.Simulation.Conditions;

/// <summary>A rotor held by its bearings or by what leaked in.</summary>
public sealed class SeizedMotor : ICondition
{
    /// <inheritdoc/>
    public string Id => "seized-motor";

    /// <inheritdoc/>
    public string Title => "the motor is stuck";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        return healthy with
        {
            Unit = healthy.Unit with
            {
                Motor = healthy.Unit.Motor with { DryFrictionNm = random.Between(1.5, 4.0) * healthy.Unit.StallTorqueNm },
            },
        };
    }
}
