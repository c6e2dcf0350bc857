using System.CommandLine;
using Bench.Cli.Exporting;
using Bench.Cli.Output;
using Bench.Cli.Running;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Records;
using Bench.Records.Runs;

namespace Bench.Cli.Verbs;

/// <summary><c>bench export</c>: tables of sealed runs, or one run whole (docs/export.md).</summary>
internal static class ExportVerb
{
    private static readonly Argument<string?> RunArgument = new("RUN") { Description = "Id of a run, or its first characters; all sealed runs without", Arity = ArgumentArity.ZeroOrOne };

    private static readonly Option<ExportSubject?> TableOption = new("--table")
    {
        Description = "What a row is (runs without); trace needs RUN",
        HelpName = "runs|findings|features|moves|trace",
        CustomParser = WordOption.Read<ExportSubject>,
    };

    private static readonly Option<ExportFormat?> FormatOption = new("--format")
    {
        Description = "csv without; xlsx, parquet and zip need --out; zip is one run whole and needs RUN",
        HelpName = "csv|json|xlsx|parquet|zip",
        CustomParser = WordOption.Read<ExportFormat>,
    };

    private static readonly Option<string?> OutOption = new("--out") { Description = "File to write; standard output without", HelpName = "FILE" };

    private static readonly Option<bool> ForceOption = new("--force") { Description = "Replace a file that is there" };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(RunArgument);
        command.Add(TableOption);
        command.Add(FormatOption);
        command.Add(OutOption);
        command.Add(ForceOption);
        RunFilterOptions.AddTo(command);
        command.SetGuardedAction(ExportAsync);
    }

    private static Task<int> ExportAsync(ParseResult options)
    {
        ExportFormat format = options.GetValue(CommonOptions.Json) ? ExportFormat.Json : options.GetValue(FormatOption) ?? ExportFormat.Csv;
        ExportSubject subject = options.GetValue(TableOption) ?? ExportSubject.Runs;
        string? id = options.GetValue(RunArgument);
        Check(options, format, subject, id);
        using RecordStore store = StoreAccess.OpenToRead(options);
        SealedRun? run = id is null ? null : StoreAccess.Find(store, id);
        if (format == ExportFormat.Zip)
        {
            Trace(store, run!, out byte[]? traceFile, out Model.Traces.Trace trace);
            Done(ExportFile.Write(options.GetValue(OutOption)!, options.GetValue(ForceOption), stream => ClaimFile.Write(run!, trace, traceFile, Packets.Reference(store, run!), store.ReadAttachment, stream)));
            return Task.FromResult(ExitCode.Done);
        }

        ExportTable table = subject == ExportSubject.Trace
            ? RunTables.Samples(store.LoadTrace(run!))
            : Table(subject, run is null ? Sealed(store, options) : [run]);
        if (options.GetValue(OutOption) is not { } path)
        {
            TableFile.Write(table, format, Console.Out);
            return Task.FromResult(ExitCode.Done);
        }

        Done(ExportFile.Write(path, options.GetValue(ForceOption), stream => TableFile.Write(table, subject, format, stream)));
        return Task.FromResult(ExitCode.Done);
    }

    private static void Check(ParseResult options, ExportFormat format, ExportSubject subject, string? id)
    {
        if (format == ExportFormat.Zip && (id is null || options.GetValue(OutOption) is null))
        {
            throw new CliException(ExitCode.BadInput, "--format zip: is one run in one file; name both: 'bench export RUN --format zip --out FILE'");
        }

        if (!TableFile.IsText(format) && options.GetValue(OutOption) is null)
        {
            throw new CliException(ExitCode.BadInput, $"--format {BenchJson.Word(format)}: is no text for a terminal; name a file with --out");
        }

        if (subject == ExportSubject.Trace && id is null)
        {
            throw new CliException(ExitCode.BadInput, "--table trace: is of one run; name it: 'bench export RUN --table trace'");
        }

        if (id is not null && RunFilterOptions.Given(options) is [var filter, ..])
        {
            throw new CliException(ExitCode.BadInput, $"{id}: {filter} chooses among all runs; leave it out, or leave out the run");
        }
    }

    private static IEnumerable<SealedRun> Sealed(RecordStore store, ParseResult options)
    {
        RunFilter filter = RunFilterOptions.Read(options) with { Open = false };
        return store.List(filter).Select(r => store.Find(r.Id.ToString("D"))).OfType<SealedRun>();
    }

    private static ExportTable Table(ExportSubject subject, IEnumerable<SealedRun> runs) => subject switch
    {
        ExportSubject.Findings => RunTables.Findings(runs),
        ExportSubject.Features => RunTables.Features(runs),
        ExportSubject.Moves => RunTables.Moves(runs),
        _ => RunTables.Runs(runs),
    };

    // The trace is held against its hash first: a claim file must not carry another.
    private static void Trace(RecordStore store, SealedRun run, out byte[]? file, out Model.Traces.Trace trace)
    {
        trace = StoreAccess.TraceOf(store, run);
        file = run.TraceFile is { } name && RecordStore.DropOf(run) is null ? File.ReadAllBytes(Path.Combine(store.Folder, name)) : null;
    }

    private static void Done(string path) => Terminal.Say($"Written: {path}");
}
