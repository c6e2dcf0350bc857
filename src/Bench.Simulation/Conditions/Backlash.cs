using Bench.Simulation.Chance;

namespace Bench.Simulation.Conditions;

/// <summary>A worn coupling that plays: the valve stays behind after each change of direction.</summary>
public sealed class Backlash : ICondition
{
    /// <inheritdoc/>
    public string Id => "backlash";

    /// <inheritdoc/>
    public string Title => "play between encoder and valve";

    /// <inheritdoc/>
    public Installation Apply(Installation healthy, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(healthy);
        ArgumentNullException.ThrowIfNull(random);
        return healthy with
        {
            Unit = healthy.Unit with
            {
                Coupling = healthy.Unit.Coupling with { PlayCounts = random.Between(10.0, 20.0) },
            },
        };
    }
}
