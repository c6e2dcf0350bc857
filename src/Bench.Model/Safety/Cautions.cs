namespace Bench.Model.Safety;

/// <summary>
/// The cautions a technician confirms before a unit is energised (design, section 7), in the order they are read:
/// what comes first of all, then the hands, then the body, then the unit. Shown by the command line, printed in the
/// evidence packet. They do not replace the emergency stop, fuse and current-limited supply of the bench.
/// </summary>
public static class Cautions
{
    /// <summary>What to heed when a unit is unpacked and looked at, before it is connected to anything. Plain sentences.</summary>
    public static IReadOnlyList<string> Handling { get; } =
    [
        "Local rules for harmful substances and licensed practice come first.",
        "The valve can hold pressure and hot or harmful fluid. Know what it carried; relieve and drain it before loosening anything.",
        "Wear gloves and eye protection. Catch what runs out, and dispose of it as its safety data sheet says.",
        "Take care of electrostatic charge: wrist strap on before touching board or connector.",
        "Connect nothing and energise nothing. A unit with fluid in its drive side must not be energised at all.",
    ];

    /// <summary>Plain sentences, each complete by itself.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        "Local electrical codes and licensed practice come first. Where they differ from this bench's instructions, follow them.",
        "Isolate and discharge before connecting: supply off, outputs shown off, capacitors given time to discharge. Only then touch or plug a connector.",
        "Check polarity and set the supply's current limit to the value of the bench file before switching on. Reversed supply can destroy the unit.",
        "Keep fingers, sleeves and tools away from shaft, gear and valve. The unit can start, reverse and stop without warning, and a stopped one can start again.",
        "The valve can hold pressure and hot or harmful fluid. Relieve and drain it and know what it carried before loosening anything; let it turn only empty or as its data sheet allows.",
        "Wear eye protection while the unit is open, under pressure or turning.",
        "Take care of electrostatic charge: wear the wrist strap and work on the earthed mat before touching the unit's board or connector. Take the strap off before anything is energised.",
        "Know where the emergency stop is and press it when in doubt. Software is not a safety function.",
    ];
}
