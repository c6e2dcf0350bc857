using Bench.Simulation.Chance;
using Bench.Simulation.Units;

namespace Bench.Simulation.Conditions;

/// <summary>A regulator of the feedback that holds at nominal supply and cuts out now and then where the supply is high.</summary>
public sealed class WeakRegulator : ICondition
{
    /// <inheritdoc/>
    public string Id => "weak-regulator";

    /// <inheritdoc/>
    public string Title => "the feedback's regulator cuts out at times while the supply is high";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        return healthy with
        {
            Unit = healthy.Unit with
            {
                Feedback = healthy.Unit.Feedback with { CutsOutAboveV = healthy.Unit.SupplyNominalV * random.Between(1.06, 1.14), CutsOut = new OpeningDesign(random.Between(4.0, 8.0), 0.150, 0.400) },
            },
        };
    }
}
