using System.Text.Json.Serialization;

namespace Bench.Model.Profiles;

/// <summary>How a family's motor winding heats, and how hot it may become (S7).</summary>
public sealed record WindingLimits
{
    /// <summary>Thermal resistance from winding to housing, or to ambient where nothing is said of the housing, kelvins per watt.</summary>
    public required double ThermalKPerW { get; init; }

    /// <summary>Time constant of the winding, seconds.</summary>
    public required double TimeConstantS { get; init; }

    /// <summary>The housing; null where the profile says nothing of it, and the estimate leaves it out.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public HousingHeat? Housing { get; init; }

    /// <summary>Greatest temperature the winding may reach, degrees Celsius; below its insulation's class.</summary>
    public required double MostCelsius { get; init; }

    /// <summary>Greatest ambient temperature the bench is used at, degrees Celsius; a run is taken to begin with the winding at it.</summary>
    public required double AmbientCelsius { get; init; }
}
