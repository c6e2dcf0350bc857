using Bench.Simulation.Chance;
using Bench.Simulation.Units;

namespace Bench.Simulation.Conditions;

/// <summary>A loose pin: vibration opens the feedback's wires for a fraction of a second, at times the supply's.</summary>
public sealed class IntermittentConnector : ICondition
{
    /// <inheritdoc/>
    public string Id => "intermittent-connector";

    /// <inheritdoc/>
    public string Title => "the connector opens now and then while turning";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        return healthy with
        {
            Unit = healthy.Unit with
            {
                Connector = healthy.Unit.Connector with
                {
                    Openings = new OpeningDesign(random.Between(6.0, 10.0), 0.060, 0.250),
                    WhenMoved = new OpeningDesign(random.Between(0.7, 1.5), 0.060, 0.250),
                    SupplyShare = random.Between(0.15, 0.30),
                },
            },
        };
    }
}
