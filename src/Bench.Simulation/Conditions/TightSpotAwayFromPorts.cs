using Bench.Simulation.Chance;
using Bench.Simulation.Units;

namespace Bench.Simulation.Conditions;

/// <summary>An arc of the valve, away from its ports, that asks for about twice the torque.</summary>
public sealed class TightSpotAwayFromPorts : ICondition
{
    /// <inheritdoc/>
    public string Id => "tight-spot";

    /// <inheritdoc/>
    public string Title => "the valve is stiff over a short arc";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        IReadOnlyList<double> seats = healthy.Unit.Valve.SeatCounts;
        int port = random.Whole(0, seats.Count - 1);
        double toNext = healthy.Unit.Ring.Place(seats[(port + 1) % seats.Count] - seats[port]);
        TightSpot spot = new(
            healthy.Unit.Ring.Place(seats[port] + (toNext * random.Between(0.3, 0.7))),
            random.Between(26.0, 34.0),
            random.Between(0.8, 1.2));
        return healthy with
        {
            Unit = healthy.Unit with { Valve = healthy.Unit.Valve with { TightSpot = spot } },
        };
    }
}
