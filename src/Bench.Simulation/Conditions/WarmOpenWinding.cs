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

        // A finer winding sits in a smaller motor, which sheds less heat: about a kelvin a watt for each ohm, its housing the more.
        double ohm = healthy.Unit.Motor.WindingOhm;
        return healthy with
        {
            Unit = healthy.Unit with
            {
                Motor = healthy.Unit.Motor with
                {
                    Warming = new WarmingDesign(3.0, ohm, 20.0, ohm * random.Between(2.3, 3.0), random.Between(250.0, 350.0)),
                    OpensAtRiseK = random.Between(29.0, 33.0),
                },
            },
        };
    }
}
