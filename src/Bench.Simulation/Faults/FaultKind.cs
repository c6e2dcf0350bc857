namespace Bench.Simulation.Faults;

/// <summary>What can go wrong on a simulated bench, on its wires or in its devices.</summary>
public enum FaultKind
{
    /// <summary>Frames do not arrive.</summary>
    Lost,

    /// <summary>One bit of a frame is turned. Serial only: TCP has checksums of its own.</summary>
    BitFlipped,

    /// <summary>A frame arrives twice. Serial only.</summary>
    Doubled,

    /// <summary>A frame arrives in pieces with pauses between them.</summary>
    Split,

    /// <summary>A frame waits for the next and arrives with it, without a gap.</summary>
    Merged,

    /// <summary>A frame arrives so late that the next exchange has begun. A serial device's late answer lets others pass; all else stays in order.</summary>
    Late,

    /// <summary>Another master's requests, and answers of other addresses. Serial only.</summary>
    Foreign,

    /// <summary>A half-duplex adapter hears what it sends. Serial only.</summary>
    Echo,

    /// <summary>Bytes of noise before, within or after a frame. Serial only.</summary>
    Noise,

    /// <summary>Bytes received with wrong parity: the driver drops them or puts zeros in their place. Serial only.</summary>
    WrongParity,

    /// <summary>The port vanishes and can be opened again later. Serial only.</summary>
    PortVanished,

    /// <summary>The connection is reset. TCP only.</summary>
    Reset,

    /// <summary>The connection stands and the peer is silent. TCP only.</summary>
    HalfOpen,

    /// <summary>Every frame takes longer, in order. TCP only.</summary>
    SlowPeer,

    /// <summary>The board neither hears nor answers; its outputs stay as they are.</summary>
    BoardSilent,

    /// <summary>The board restarts: outputs off, silent while it does.</summary>
    BoardRestart,

    /// <summary>A relay's contact is welded; its coil still reads as commanded. For good.</summary>
    StuckRelay,

    /// <summary>A relay's contact does not make any more, burnt; its coil still reads as commanded. For good.</summary>
    OpenRelay,

    /// <summary>The emergency stop is pressed. For good.</summary>
    EmergencyStop,

    /// <summary>The board answers that it can't read its current meter.</summary>
    CurrentMeterRefuses,

    /// <summary>The current meter shows nothing, whatever flows.</summary>
    CurrentMeterDead,

    /// <summary>The unit's feedback is silent: a fault of the unit as far as a bench can tell.</summary>
    FeedbackSilent,

    /// <summary>Answers of the unit's feedback are damaged. Serial only.</summary>
    FeedbackGarbled,

    /// <summary>The programmable supply neither hears nor answers; its output stays as it is.</summary>
    SupplySilent,

    /// <summary>It refuses whatever is set or switched, as one locked at its panel does.</summary>
    SupplyRefuses,

    /// <summary>It takes a setting without a word and keeps the one of before.</summary>
    SupplyKeepsSetting,

    /// <summary>It gives more than it is set to.</summary>
    SupplyTooHigh,

    /// <summary>The supply's output is parted from the bench: a fuse, a plug, a blackout.</summary>
    PowerCut,
}
