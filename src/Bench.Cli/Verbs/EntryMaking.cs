using System.CommandLine;
using Bench.Cli.Output;
using Bench.Model.Entries;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Records.Keys;
using Bench.Reporting.Text;

namespace Bench.Cli.Verbs;

/// <summary>What the verbs have in common that say something of a sealed run.</summary>
internal static class EntryMaking
{
    /// <summary>Finds the run, makes the entry, signed with the bench's key where it has one, and prints it.</summary>
    /// <param name="options">What was given.</param>
    /// <param name="make">Makes the entry.</param>
    public static Task<int> RunAsync(ParseResult options, Func<RecordStore, SealedRun, SealedEntry> make)
    {
        using BenchKey? key = KeyFile.Load();
        using RecordStore store = StoreAccess.OpenExisting(options, key);
        SealedRun run = StoreAccess.Find(store, options);
        Write(run, make(store, run), options);
        return Task.FromResult(ExitCode.Done);
    }

    private static void Write(SealedRun run, SealedEntry entry, ParseResult options)
    {
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(EntryJson.Of(entry));
        }
        else
        {
            Terminal.Result($"{EntryWording.Of(entry.Entry)}\nEntry {entry.Sequence} of run {run.Record.Start.Id}, hash {entry.Hash}");
        }
    }
}
