namespace Bench.Running.Safety;

/// <summary>States of the safety gate.</summary>
public enum GateState
{
    /// <summary>Something that S3 asks for is missing: safe state read back, cautions and wiring confirmed for this unit.</summary>
    Closed,

    /// <summary>A drive may be switched on.</summary>
    Armed,

    /// <summary>A drive has been commanded on and not yet confirmed off.</summary>
    Energised,

    /// <summary>Held until a person acts; this gate never arms again.</summary>
    Tripped,
}
