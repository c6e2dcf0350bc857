using Bench.Cli.Output;
using Bench.Model.Runs;
using Bench.Records;

namespace Bench.Cli.Running;

/// <summary>Finds runs that a dead process left open and says what to do about them.</summary>
internal static class Interruptions
{
    /// <summary>Recovers them and tells.</summary>
    public static void Report(RecordStore store)
    {
        foreach (RunRecord run in store.RecoverInterrupted())
        {
            Terminal.Say($"Run {run.Start.Id} of unit {run.Start.Return.Serial} was cut short: {run.AbortText} Its {run.Samples} samples are kept.");
        }
    }
}
