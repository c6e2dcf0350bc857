using Bench.Simulation.Chance;
using Bench.Simulation.Units;

namespace Bench.Simulation.Conditions;

/// <summary>A worn coupling: it holds the valve between ports, but a seat's torque now and then carries it over a tooth.</summary>
public sealed class CouplingSlip : ICondition
{
    /// <inheritdoc/>
    public string Id => "coupling-slip";

    /// <inheritdoc/>
    public string Title => "the coupling rides over a tooth at some seats";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        // Between ports the valve asks for 1 of its friction, at a seat for all of both.
        ValveDesign valve = healthy.Unit.Valve;
        double seatNm = valve.FrictionNm + valve.SeatExtraNm;
        double least = valve.FrictionNm + (0.6 * valve.SeatExtraNm);
        double chance = random.Between(0.25, 0.45);
        return healthy with
        {
            Unit = healthy.Unit with
            {
                Coupling = healthy.Unit.Coupling with
                {
                    HoldsAtLeastNm = least,
                    HoldsAtMostNm = least + ((seatNm - least) / chance),
                    ToothCounts = random.Between(10.0, 30.0),
                },
            },
        };
    }
}
