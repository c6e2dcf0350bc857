using Bench.Model.Judging;
using Bench.Model.Runs;

namespace Bench.Cli.Running;

/// <summary>Which exit code runs end with.</summary>
internal static class RunExit
{
    /// <summary>
    /// Codes from worst to best: safety, the bench, a person who stopped it, a unit that was left out, evidence that is
    /// missing, done.
    /// </summary>
    private static readonly int[] WorstFirst =
        [ExitCode.SafetyAbort, ExitCode.BenchFault, ExitCode.Interrupted, ExitCode.BadInput, ExitCode.Held, ExitCode.Done];

    /// <summary>The code of one run.</summary>
    public static int CodeOf(RunRecord record) => record.Outcome switch
    {
        RunOutcome.Judged => ExitCode.Done,
        RunOutcome.Held => ExitCode.Held,
        _ when !record.OutputsConfirmedOff && record.Abort != AbortReason.BenchFault => ExitCode.SafetyAbort,
        _ => record.Abort switch
        {
            AbortReason.Cancelled => ExitCode.Interrupted,
            AbortReason.NotConfirmed or AbortReason.InspectionForbids => ExitCode.BadInput,
            AbortReason.EmergencyStop or AbortReason.OverCurrent or AbortReason.OutputNotConfirmed => ExitCode.SafetyAbort,
            _ => ExitCode.BenchFault,
        },
    };

    /// <summary>The worst of several codes.</summary>
    /// <param name="codes">Codes, at least one.</param>
    public static int Worst(IEnumerable<int> codes) => codes.MinBy(code => Array.IndexOf(WorstFirst, code));
}
