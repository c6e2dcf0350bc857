using Bench.Simulation.Chance;
using Bench.Simulation.Units;

namespace Bench.Simulation.Conditions;

/// <summary>A lead within the motor that opens when the winding has warmed for some minutes, and closes again as it cools.</summary>
public sealed class WarmOpenWinding : ICondition
{
    /// <inheritdoc/>
    public string Id => "warm-open-winding";

    /// <inheritdoc/>
    public string Title => "the winding opens when it is warm";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        return healthy with
        {
            Unit = healthy.Unit with
            {
                Motor = healthy.Unit.Motor with
                {
                    Warming = new WarmingDesign(3.0, 45.0, 240.0),
                    OpensAtRiseK = random.Between(12.0, 15.0),
                },
            },
        };
    }
}
