using System.CommandLine;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Records.Keys;

namespace Bench.Cli.Verbs;

/// <summary>Opens the store for verbs that look at stored runs.</summary>
internal static class StoreAccess
{
    /// <summary>The argument that names a run.</summary>
    public static Argument<string> RunArgument { get; } = new("RUN") { Description = "Id of the run, or its first characters" };

    /// <summary>Opens the store of an existing data folder.</summary>
    /// <param name="options">What was given.</param>
    /// <param name="key">The key to sign new entries with; null to sign nothing.</param>
    /// <exception cref="CliException">There is none.</exception>
    public static RecordStore OpenExisting(ParseResult options, BenchKey? key = null)
    {
        string folder = DataFolder.Resolve(options.GetValue(CommonOptions.Data));
        return Directory.Exists(folder)
            ? RecordStore.Open(folder, TimeProvider.System, key: key)
            : throw new CliException(ExitCode.BadInput, $"{folder}: there is no such data folder; name another with --data DIR, or make runs with 'bench demo' or 'bench run'");
    }

    /// <summary>The run that the argument names.</summary>
    /// <exception cref="CliException">There is none.</exception>
    public static SealedRun Find(RecordStore store, ParseResult options) => Find(store, options.GetRequiredValue(RunArgument));

    /// <summary>The run of an id, or of its first characters.</summary>
    /// <exception cref="CliException">There is none.</exception>
    public static SealedRun Find(RecordStore store, string id) =>
        store.Find(id)
        ?? throw new CliException(ExitCode.BadInput, $"{id}: there is no sealed run of that id; 'bench runs' lists them");
}
