using Bench.Simulation.Units;

namespace Bench.Simulation.Conditions;

/// <summary>What a condition can touch: the unit, the supply it hangs on, and the wires of its bus.</summary>
/// <param name="Unit">The unit.</param>
/// <param name="Supply">The supply.</param>
/// <param name="LineErrorShare">Share of frames that the bus damages or loses, each way, 0 to 1.</param>
public sealed record Installation(UnitDesign Unit, SupplyDesign Supply, double LineErrorShare)
{
    /// <summary>The position's meters.</summary>
    public MeterDesign Meters { get; init; } = new();

    /// <summary>A sound unit on a sound bench: nominal supply, clean bus.</summary>
    public static Installation Of(UnitDesign unit)
    {
        ArgumentNullException.ThrowIfNull(unit);
        return new Installation(unit, new SupplyDesign(unit.SupplyNominalV, SupplyDesign.HealthySourceOhm), 0.0);
    }
}
