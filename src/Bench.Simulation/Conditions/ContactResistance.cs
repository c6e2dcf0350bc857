using Bench.Simulation.Chance;
using Bench.Simulation.Units;

namespace Bench.Simulation.Conditions;

/// <summary>Some ohms in the connector: the bench's terminals show full voltage, the motor gets less.</summary>
public sealed class ContactResistance : ICondition
{
    /// <inheritdoc/>
    public string Id => "contact-resistance";

    /// <inheritdoc/>
    public string Title => "corroded supply contacts in the unit's connector";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        ConnectorDesign connector = healthy.Unit.Connector;
        return healthy with
        {
            Unit = healthy.Unit with
            {
                Connector = connector with { ContactOhm = connector.ContactOhm + random.Between(7.0, 12.0) },
            },
        };
    }
}
