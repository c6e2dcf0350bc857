using System.Text.Json.Serialization;

namespace Bench.Model.Profiles;

/// <summary>Nominal electrical and mechanical data of a unit family.</summary>
public sealed record ElectricalData
{
    /// <summary>Nominal supply at the unit's connector, volts.</summary>
    public required double SupplyNominalV { get; init; }

    /// <summary>Least supply at which a test counts, volts (IEC 61131-2 gives 20.4 V for 24 V DC).</summary>
    public required double SupplyMinV { get; init; }

    /// <summary>Greatest supply at which a test counts, volts (IEC 61131-2 gives 28.8 V for 24 V DC).</summary>
    public required double SupplyMaxV { get; init; }

    /// <summary>Winding resistance at room temperature, ohms.</summary>
    public required double WindingOhm { get; init; }

    /// <summary>Torque constant, N·m/A; in SI units also the back-EMF constant, V·s/rad.</summary>
    public required double TorqueConstantNmPerA { get; init; }

    /// <summary>Current of the bare motor turning freely, amperes.</summary>
    public required double NoLoadCurrentA { get; init; }

    /// <summary>Current of the motor held still at nominal supply, amperes.</summary>
    public required double StallCurrentA { get; init; }

    /// <summary>Current of a healthy unit turning its valve between ports, amperes.</summary>
    public required double RunningCurrentA { get; init; }

    /// <summary>Motor revolutions per revolution of the ring.</summary>
    public required double GearRatio { get; init; }

    /// <summary>Ripples of current per revolution of the motor, from commutation; null where nobody knows.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? RippleCyclesPerMotorRevolution { get; init; }

    /// <summary>Speed of a healthy unit at nominal supply, counts per second.</summary>
    public required double RunningSpeedCountsPerS { get; init; }
}
