using System.CommandLine;
using Bench.Cli.Output;
using Bench.Model.Entries;
using Bench.Model.Runs;
using Bench.Reporting.Text;

namespace Bench.Cli.Verbs;

/// <summary>What a verb prints that has made an entry.</summary>
internal static class EntryOutput
{
    /// <summary>Prints it.</summary>
    public static void Write(SealedRun run, SealedEntry entry, ParseResult options)
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
