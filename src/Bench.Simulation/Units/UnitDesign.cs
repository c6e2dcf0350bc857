using Bench.Model.Rings;

namespace Bench.Simulation.Units;

/// <summary>Everything physical about one unit.</summary>
public sealed record UnitDesign
{
    /// <summary>The encoder's circle; angles of every shaft are told in its counts.</summary>
    public required Ring Ring { get; init; }

    /// <summary>Supply for which the unit is made, volts.</summary>
    public required double SupplyNominalV { get; init; }

    /// <summary>Motor.</summary>
    public required MotorDesign Motor { get; init; }

    /// <summary>Gear train.</summary>
    public required GearDesign Gear { get; init; }

    /// <summary>Ring of sensors.</summary>
    public required EncoderDesign Encoder { get; init; }

    /// <summary>Coupling of encoder and valve.</summary>
    public required CouplingDesign Coupling { get; init; }

    /// <summary>Valve.</summary>
    public required ValveDesign Valve { get; init; }

    /// <summary>Connector.</summary>
    public required ConnectorDesign Connector { get; init; }

    /// <summary>Feedback electronics.</summary>
    public required FeedbackDesign Feedback { get; init; }

    /// <summary>How all dry friction, at the motor, goes with speed; null where it does not.</summary>
    public FrictionLaw? Friction { get; init; }

    /// <summary>How it sticks at rest; null where it does not.</summary>
    public StickingDesign? Sticking { get; init; }

    /// <summary>The unit's own controller; null for a unit that the bench drives.</summary>
    public ControllerDesign? Controller { get; init; }

    /// <summary>Torque of the motor held still at nominal supply, at the motor, N·m.</summary>
    public double StallTorqueNm => Motor.TorqueConstantNmPerA * SupplyNominalV / Motor.WindingOhm;

    /// <summary>The same at the encoder shaft, N·m.</summary>
    public double StallTorqueAtShaftNm => StallTorqueNm * Gear.Ratio * Gear.Efficiency;
}
