using Bench.Simulation.Chance;

namespace Bench.Simulation.Conditions;

/// <summary>A broken winding or lead within the motor.</summary>
public sealed class OpenWinding : ICondition
{
    /// <inheritdoc/>
    public string Id => "open-winding";

    /// <inheritdoc/>
    public string Title => "no current can flow in the motor";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        return healthy with
        {
            Unit = healthy.Unit with
            {
                Motor = healthy.Unit.Motor with { WindingOhm = double.PositiveInfinity },
            },
        };
    }
}
