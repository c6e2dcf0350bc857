using System.CommandLine;
using Bench.Cli.Output;
using Bench.Cli.Running;
using Bench.Model.Runs;
using Bench.Records;

namespace Bench.Cli.Verbs;

/// <summary><c>bench report</c>: writes a run's evidence packet.</summary>
internal static class ReportVerb
{
    private static readonly Option<string> OutOption = new("--out") { Description = "Folder for the packet", HelpName = "DIR", DefaultValueFactory = _ => "." };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(StoreAccess.RunArgument);
        command.Add(OutOption);
        command.SetGuardedAction(ReportAsync);
    }

    private static Task<int> ReportAsync(ParseResult options)
    {
        using RecordStore store = StoreAccess.OpenExisting(options);
        SealedRun run = StoreAccess.Find(store, options);
        string path = Packets.Write(run, store.LoadTrace(run), options.GetRequiredValue(OutOption));
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(new { Run = run.Record.Start.Id, Packet = path });
        }
        else
        {
            Terminal.Result(path);
        }

        return Task.FromResult(ExitCode.Done);
    }
}
