using Bench.Simulation.Chance;
using Bench.Simulation.Units;

namespace Bench.Simulation.Conditions;

/// <summary>A unit's own controller that takes its target and does nothing. Nothing on a unit without one.</summary>
public sealed class DeafController : ICondition
{
    /// <inheritdoc/>
    public string Id => "deaf-controller";

    /// <inheritdoc/>
    public string Title => "the unit takes its target and does not turn";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        return healthy.Unit.Controller is not ControllerDesign controller
            ? healthy
            : healthy with { Unit = healthy.Unit with { Controller = controller with { Obeys = false } } };
    }
}
