using Bench.Simulation.Chance;

namespace Bench.Simulation.Conditions;

/// <summary>A port's switch that never closes: a broken spring or wire. Nothing on a unit with another feedback.</summary>
public sealed class DeadSwitch : ICondition
{
    /// <inheritdoc/>
    public string Id => "dead-switch";

    /// <inheritdoc/>
    public string Title => "the switch of one port never closes";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        int port = random.Whole(0, healthy.Unit.Valve.SeatCounts.Count - 1);
        return healthy with
        {
            Unit = healthy.Unit with { Feedback = healthy.Unit.Feedback with { OpenSwitches = [port] } },
        };
    }
}
