namespace Bench.Simulation.Mismatch;

/// <summary>One way in which a unit or its bench departs from what the ordinary model takes for granted, each within what a sound one may have.</summary>
public enum Variation
{
    /// <summary>Stribeck's fall from rest to motion, and a viscous share.</summary>
    FrictionLaw,

    /// <summary>Friction with one and two waves a turn.</summary>
    FrictionWaves,

    /// <summary>Sensors spaced unevenly with one and two periods a turn.</summary>
    EccentricRing,

    /// <summary>Sensors of uneven width.</summary>
    UnevenSensors,

    /// <summary>An index arc of another width, and elsewhere.</summary>
    Index,

    /// <summary>More play in gear and coupling.</summary>
    Play,

    /// <summary>Devices whose turnaround drifts and is at times long.</summary>
    Turnaround,

    /// <summary>Feedback that latches its count before it answers.</summary>
    LatchedCount,

    /// <summary>Meters that average over 20 ms, with offset, drift and steps.</summary>
    Meter,

    /// <summary>Ripple, and more sag with load.</summary>
    Supply,

    /// <summary>A warm winding that warms further.</summary>
    Warming,
}
