using System.Globalization;
using Bench.Cli.Output;
using Bench.Records;
using Bench.Records.Runs;

namespace Bench.Cli.Running;

/// <summary>Notices that the computer's clock was set back since the last run.</summary>
internal static class WallClock
{
    private const string Pattern = "yyyy-MM-dd HH:mm:ss";

    /// <summary>Says so on standard error; a run goes on all the same, for the order of records does not depend on it.</summary>
    public static void Report(RecordStore store, TimeProvider time)
    {
        DateTimeOffset now = time.GetUtcNow();
        if (store.List(new RunFilter { Most = 1 }) is [RunSummary newest] && newest.StartedAt > now)
        {
            string began = newest.StartedAt.UtcDateTime.ToString(Pattern, CultureInfo.InvariantCulture);
            Terminal.Say(
                $"The computer's clock says {now.ToString(Pattern, CultureInfo.InvariantCulture)} UTC, before run {newest.Id} began ({began} UTC): it was set back, "
                + "or was ahead then. Set it right; the chain keeps the true order of runs, their dates do not.");
        }
    }
}
