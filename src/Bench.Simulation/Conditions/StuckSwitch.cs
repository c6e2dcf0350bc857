using Bench.Simulation.Chance;

namespace Bench.Simulation.Conditions;

/// <summary>A port's switch that never opens: a contact welded or a cam's follower stuck. Nothing on a unit with another feedback.</summary>
public sealed class StuckSwitch : ICondition
{
    /// <inheritdoc/>
    public string Id => "stuck-switch";

    /// <inheritdoc/>
    public string Title => "the switch of one port never opens";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        int port = random.Whole(0, healthy.Unit.Valve.SeatCounts.Count - 1);
        return healthy with
        {
            Unit = healthy.Unit with { Feedback = healthy.Unit.Feedback with { ClosedSwitches = [port] } },
        };
    }
}
