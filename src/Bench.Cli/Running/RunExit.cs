using Bench.Model.Judging;
using Bench.Model.Runs;

namespace Bench.Cli.Verbs;

/// <summary>Which exit code a run ends with.</summary>
internal static class RunExit
{
    /// <summary>The code.</summary>
    public static int CodeOf(RunRecord record) => record.Outcome switch
    {
        RunOutcome.Judged => ExitCode.Done,
        RunOutcome.Held => ExitCode.Held,
        _ when !record.OutputsConfirmedOff && record.Abort != AbortReason.BenchFault => ExitCode.SafetyAbort,
        _ => record.Abort switch
        {
            AbortReason.Cancelled => ExitCode.Interrupted,
            AbortReason.NotConfirmed => ExitCode.BadInput,
            AbortReason.EmergencyStop or AbortReason.OverCurrent or AbortReason.OutputNotConfirmed => ExitCode.SafetyAbort,
            _ => ExitCode.BenchFault,
        },
    };
}
