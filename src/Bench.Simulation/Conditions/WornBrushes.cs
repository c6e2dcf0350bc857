using Bench.Simulation.Chance;
using Bench.Simulation.Units;

namespace Bench.Simulation.Conditions;

/// <summary>Worn brushes: some ohms more, and the contact opens for milliseconds, tens of times a second, while it turns.</summary>
public sealed class WornBrushes : ICondition
{
    /// <inheritdoc/>
    public string Id => "worn-brushes";

    /// <inheritdoc/>
    public string Title => "brushes with high resistance that lift while turning";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        MotorDesign motor = healthy.Unit.Motor;
        return healthy with
        {
            Unit = healthy.Unit with
            {
                Motor = motor with
                {
                    WindingOhm = motor.WindingOhm + random.Between(4.0, 7.0),
                    BrushGaps = new OpeningDesign(1.0 / random.Between(20.0, 40.0), 0.003, 0.012),
                },
            },
        };
    }
}
