namespace Bench.Model.Runs;

/// <summary>Why a run was aborted.</summary>
public enum AbortReason
{
    /// <summary>The emergency stop was pressed.</summary>
    EmergencyStop,

    /// <summary>Current above the limit.</summary>
    OverCurrent,

    /// <summary>An output could not be confirmed off.</summary>
    OutputNotConfirmed,

    /// <summary>A device or link of the bench failed.</summary>
    BenchFault,

    /// <summary>A person stopped it.</summary>
    Cancelled,

    /// <summary>Cautions or wiring were not confirmed.</summary>
    NotConfirmed,

    /// <summary>The arrival inspection forbids energising the unit.</summary>
    InspectionForbids,

    /// <summary>The program died during the run; found at the next start.</summary>
    HostDied,

    /// <summary>A defect of this program.</summary>
    Defect,
}
