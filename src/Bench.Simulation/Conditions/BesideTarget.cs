using Bench.Simulation.Chance;
using Bench.Simulation.Units;

namespace Bench.Simulation.Conditions;

/// <summary>A unit's own controller that goes beside its target: its zero was lost. Nothing on a unit without one.</summary>
public sealed class BesideTarget : ICondition
{
    /// <inheritdoc/>
    public string Id => "beside-target";

    /// <inheritdoc/>
    public string Title => "the unit goes to a place beside its target";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        return healthy.Unit.Controller is not ControllerDesign controller
            ? healthy
            : healthy with { Unit = healthy.Unit with { Controller = controller with { BesideCounts = random.Between(25.0, 60.0) * (random.Happens(0.5) ? 1.0 : -1.0) } } };
    }
}
