using Bench.Cli.Logging;
using Bench.Model.Instruments;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Running;
using Serilog;

namespace Bench.Cli.Running;

/// <summary>Joins a unit position, the store and the log for one run.</summary>
internal static class RunSession
{
    /// <summary>Version of this program as it stands in records.</summary>
    public static string Software { get; } =
        $"bench {typeof(RunSession).Assembly.GetName().Version?.ToString(3)}";

    /// <summary>Runs one unit. The record is sealed when this returns.</summary>
    public static async Task<RunRecord> RunAsync(
        RunStart start,
        IUnitPosition position,
        RecordStore store,
        ILogger log,
        TimeProvider time,
        IOperator person,
        IRunObserver? observer,
        IBenchPower? power,
        CancellationToken cancel)
    {
        using IRunJournal journal = new LoggedJournal(store.Begin(start), start, log);
        TestRun run = new(new RunRequest
        {
            Start = start,
            Position = position,
            Journal = journal,
            Time = time,
            Operator = person,
            Observer = observer,
            Power = power,
        });
        return await run.ExecuteAsync(cancel);
    }
}
