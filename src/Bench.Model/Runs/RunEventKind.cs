namespace Bench.Model.Runs;

/// <summary>Kinds of event in a run's record.</summary>
public enum RunEventKind
{
    /// <summary>A stage began.</summary>
    Stage,

    /// <summary>Cautions or wiring were confirmed, or not.</summary>
    Confirmation,

    /// <summary>The gate changed state.</summary>
    Gate,

    /// <summary>An output is about to be switched (S9).</summary>
    OutputCommand,

    /// <summary>What the output was after switching, as read back or as acknowledged (S9).</summary>
    OutputResult,

    /// <summary>A fault of a device, link or limit.</summary>
    Fault,

    /// <summary>Anything else a reader would want to know.</summary>
    Note,
}
