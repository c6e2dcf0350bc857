using System.CommandLine;
using Bench.Cli.Output;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Records;
using Bench.Records.Keys;

namespace Bench.Cli.Verbs;

/// <summary>Opens the store for verbs that look at stored runs.</summary>
internal static class StoreAccess
{
    /// <summary>The argument that names a run.</summary>
    public static Argument<string> RunArgument { get; } = new("RUN") { Description = "Id of the run, or its first characters" };

    /// <summary>Opens the store of an existing data folder for a verb that only looks; the folder may be read-only.</summary>
    /// <exception cref="CliException">There is none.</exception>
    public static RecordStore OpenToRead(ParseResult options) => RecordStore.OpenToRead(Existing(options), TimeProvider.System);

    /// <summary>Opens the store of an existing data folder.</summary>
    /// <param name="options">What was given.</param>
    /// <param name="key">The key to sign new entries with; null to sign nothing.</param>
    /// <exception cref="CliException">There is none.</exception>
    public static RecordStore OpenExisting(ParseResult options, BenchKey? key = null) => RecordStore.Open(Existing(options), TimeProvider.System, key: key);

    /// <summary>The run that the argument names.</summary>
    /// <exception cref="CliException">There is none.</exception>
    public static SealedRun Find(RecordStore store, ParseResult options) => Find(store, options.GetRequiredValue(RunArgument));

    /// <summary>The run of an id, or of its first characters.</summary>
    /// <exception cref="CliException">There is none.</exception>
    public static SealedRun Find(RecordStore store, string id) =>
        store.Find(id)
        ?? throw new CliException(ExitCode.BadInput, $"{id}: there is no sealed run of that id; 'bench runs' lists them");

    /// <summary>A run's trace; where it was dropped by policy an empty one, and that is said.</summary>
    public static Trace TraceOf(RecordStore store, SealedRun run)
    {
        if (RecordStore.DropOf(run) is not { } dropped)
        {
            return store.LoadTrace(run);
        }

        Terminal.Say($"The trace of run {run.Record.Start.Id:D} was dropped by policy on {dropped.MadeAt:yyyy-MM-dd} by {dropped.By} ({dropped.Because}): what needs it is left out, all else is whole.");
        return new Trace();
    }

    private static string Existing(ParseResult options)
    {
        string folder = DataFolder.Resolve(options.GetValue(CommonOptions.Data));
        return Directory.Exists(folder)
            ? folder
            : throw new CliException(ExitCode.BadInput, $"{folder}: there is no such data folder; name another with --data DIR, or make runs with 'bench demo' or 'bench run'");
    }
}
