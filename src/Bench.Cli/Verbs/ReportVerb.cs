using System.CommandLine;
using Bench.Cli.Output;
using Bench.Cli.Running;
using Bench.Model.Runs;
using Bench.Records;

namespace Bench.Cli.Verbs;

/// <summary><c>bench report</c>: writes a run's evidence packet, traveller or label.</summary>
internal static class ReportVerb
{
    private static readonly Option<string> OutOption = new("--out")
    {
        Description = "File to write, when its name ends in .html or .pdf (then --format may be left out); else a folder for it, made where there is none",
        HelpName = "FILE|DIR",
        DefaultValueFactory = _ => ".",
    };

    private static readonly Option<bool> ForceOption = new("--force") { Description = "Replace the file that --out names" };

    private static readonly Option<PacketFormat?> FormatOption = new("--format")
    {
        Description = "html without: the evidence packet as a page; pdf: for paper; traveller, traveller-a6: one page to go with the unit; label: 62 mm wide",
        HelpName = "html|pdf|traveller|traveller-a6|label",
        CustomParser = WordOption.Read<PacketFormat>,
    };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(StoreAccess.RunArgument);
        command.Add(FormatOption);
        command.Add(OutOption);
        command.Add(ForceOption);
        command.SetGuardedAction(ReportAsync);
    }

    private static Task<int> ReportAsync(ParseResult options)
    {
        PacketPlace place = PacketPlace.Of(options.GetRequiredValue(OutOption));
        PacketFormat format = place.Format(options.GetValue(FormatOption));
        using RecordStore store = StoreAccess.OpenToRead(options);
        SealedRun run = StoreAccess.Find(store, options);
        string path = place.File(Packets.FileName(run, Packets.Ending(format)), options.GetValue(ForceOption));
        Packets.Write(store, run, format, path);
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
