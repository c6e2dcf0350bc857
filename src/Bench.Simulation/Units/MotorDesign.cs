namespace Bench.Simulation.Units;

/// <summary>The motor: a brushed permanent-magnet DC machine.</summary>
public sealed record MotorDesign
{
    /// <summary>Winding and brushes, ohms; infinite when open.</summary>
    public required double WindingOhm { get; init; }

    /// <summary>Inductance, henries.</summary>
    public required double InductanceH { get; init; }

    /// <summary>Torque constant, N·m/A; in SI units also the back-EMF constant, V·s/rad.</summary>
    public required double TorqueConstantNmPerA { get; init; }

    /// <summary>Inertia of the rotor and all that turns with it, kg·m².</summary>
    public required double InertiaKgM2 { get; init; }

    /// <summary>Dry friction of brushes and bearings, N·m.</summary>
    public required double DryFrictionNm { get; init; }

    /// <summary>Viscous friction, N·m·s/rad.</summary>
    public required double ViscousNmS { get; init; }

    /// <summary>How the winding warms; null for one that does not.</summary>
    public WarmingDesign? Warming { get; init; }

    /// <summary>Gaps in the contact of brush and commutator; null for a sound one.</summary>
    public OpeningDesign? BrushGaps { get; init; }

    /// <summary>Rise of its winding by its own losses from which it opens, kelvins, until it has cooled by a fifth; null for one that holds. Needs <see cref="Warming"/>.</summary>
    public double? OpensAtRiseK { get; init; }

    /// <summary>Share of its stops at which a brush comes to hang, so that no current flows at the next start, 0 to 1.</summary>
    public double HangingShare { get; init; }
}
