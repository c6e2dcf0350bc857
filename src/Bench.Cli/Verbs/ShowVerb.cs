using System.CommandLine;
using Bench.Cli.Output;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Reporting.Text;

namespace Bench.Cli.Verbs;

/// <summary><c>bench show</c>: one run in words.</summary>
internal static class ShowVerb
{
    /// <summary>Makes the verb.</summary>
    public static Command Make()
    {
        Command command = new("show", "Show one run: verdict, reasons, findings, causes, what to do next") { StoreAccess.RunArgument };
        command.SetGuardedAction(ShowAsync);
        return command;
    }

    private static Task<int> ShowAsync(ParseResult options)
    {
        using RecordStore store = StoreAccess.OpenExisting(options);
        SealedRun run = StoreAccess.Find(store, options);
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(RunJson.Of(run.Record));
        }
        else
        {
            Terminal.Result(VerdictText.Write(run, Terminal.Width));
        }

        return Task.FromResult(ExitCode.Done);
    }
}
