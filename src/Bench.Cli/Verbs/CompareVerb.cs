using System.CommandLine;
using Bench.Analysis.Comparing;
using Bench.Cli.Output;
using Bench.Cli.Running;
using Bench.Model.Comparisons;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Reporting.Comparison;

namespace Bench.Cli.Verbs;

/// <summary><c>bench compare</c>: holds two runs of a unit against each other.</summary>
internal static class CompareVerb
{
    private static readonly Argument<string> RunA = new("RUN_A") { Description = "Id of the run to hold against, or its first characters; usually the earlier" };
    private static readonly Argument<string> RunB = new("RUN_B") { Description = "Id of the other run, or its first characters; differences are B minus A" };
    private static readonly Option<bool> AcrossUnits = new("--across-units") { Description = "Compare runs of two units of one family" };

    private static readonly Option<PacketFormat?> FormatOption = new("--format")
    {
        Description = "Write the comparison as a page or PDF in place of text",
        HelpName = "html|pdf",
        CustomParser = argument => WordOption.Read(argument, PacketFormat.Html, PacketFormat.Pdf),
    };

    private static readonly Option<string?> OutOption = new("--out")
    {
        Description = "File to write, when its name ends in .html or .pdf (then --format may be left out); else a folder for it, made where there is none",
        HelpName = "FILE|DIR",
    };

    private static readonly Option<bool> ForceOption = new("--force") { Description = "Replace the file that --out names" };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(RunA);
        command.Add(RunB);
        command.Add(AcrossUnits);
        command.Add(FormatOption);
        command.Add(OutOption);
        command.Add(ForceOption);
        command.SetGuardedAction(CompareAsync);
    }

    private static Task<int> CompareAsync(ParseResult options)
    {
        string? given = options.GetValue(OutOption);
        PacketFormat? asked = options.GetValue(FormatOption);
        PacketPlace? place = given is null && asked is null ? null : PacketPlace.Of(given ?? ".");
        PacketFormat? format = place?.Format(asked);
        using RecordStore store = StoreAccess.OpenToRead(options);
        SealedRun a = StoreAccess.Find(store, options.GetRequiredValue(RunA));
        SealedRun b = StoreAccess.Find(store, options.GetRequiredValue(RunB));
        Check(a, b, options.GetValue(AcrossUnits));
        RunComparison comparison = RunComparer.Compare(a, b);
        string? file = place is null ? null : Write(comparison, format!.Value, place.File(Name(comparison, format.Value), options.GetValue(ForceOption)));
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(ComparisonJson.Of(comparison, file));
        }
        else
        {
            Terminal.Result(file ?? ComparisonText.Write(comparison, Terminal.Width).TrimEnd('\n'));
        }

        return Task.FromResult(ExitCode.Done);
    }

    private static void Check(SealedRun a, SealedRun b, bool acrossUnits)
    {
        string familyA = a.Record.Start.Profile.Family, familyB = b.Record.Start.Profile.Family;
        if (familyA != familyB)
        {
            throw new CliException(
                ExitCode.BadInput,
                $"RUN_A is of a {familyA}, RUN_B of a {familyB}: their features mean different things; choose two runs of one family ('bench runs --family {familyA}')");
        }

        if (a.Return.Serial != b.Return.Serial && !acrossUnits)
        {
            throw new CliException(
                ExitCode.BadInput,
                $"RUN_A is of unit {a.Return.Serial}, RUN_B of unit {b.Return.Serial}; choose two runs of one unit ('bench runs --serial {a.Return.Serial}'), set a wrong label right with 'bench correct', or add --across-units to compare the two units");
        }
    }

    private static string Name(RunComparison comparison, PacketFormat format)
    {
        string ofB = Packets.FileName(comparison.B, string.Empty);
        return $"{ofB}-against-{comparison.A.Record.Start.Id.ToString("N")[^12..]}{Packets.Ending(format)}";
    }

    private static string Write(RunComparison comparison, PacketFormat format, string path) => Packets.Write(
        path,
        output =>
        {
            if (format == PacketFormat.Pdf)
            {
                ComparisonPacket.WritePdf(comparison, output);
            }
            else
            {
                Packets.Text(output, writer => ComparisonPacket.Write(comparison, writer));
            }
        });
}
