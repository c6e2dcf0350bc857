using Bench.Simulation.Chance;
using Bench.Simulation.Units;

namespace Bench.Simulation.Conditions;

/// <summary>A strand of the feedback's cable broken inside its jacket: it opens when the cable is bent, hardly ever by the unit's own shaking.</summary>
public sealed class StrainedCable : ICondition
{
    /// <inheritdoc/>
    public string Id => "strained-cable";

    /// <inheritdoc/>
    public string Title => "the feedback's cable opens when it is bent by hand";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        return healthy with
        {
            Unit = healthy.Unit with
            {
                Connector = healthy.Unit.Connector with { WhenMoved = new OpeningDesign(random.Between(0.7, 1.5), 0.060, 0.250) },
            },
        };
    }
}
