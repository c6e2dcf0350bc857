using System.CommandLine;
using Bench.Cli.Output;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Reporting.Text;

namespace Bench.Cli.Verbs;

/// <summary><c>bench show</c>: one run in words.</summary>
internal static class ShowVerb
{
    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(StoreAccess.RunArgument);
        command.SetGuardedAction(ShowAsync);
    }

    private static Task<int> ShowAsync(ParseResult options)
    {
        using RecordStore store = StoreAccess.OpenToRead(options);
        SealedRun run = StoreAccess.Find(store, options);
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(RunJson.Of(run.Record) with { Serial = run.Return.Serial, Entries = [.. run.Entries.Select(EntryJson.Of)] });
        }
        else
        {
            Terminal.Result(VerdictText.Write(run, Terminal.Width));
        }

        return Task.FromResult(ExitCode.Done);
    }
}
