using System.CommandLine;
using Bench.Cli.Output;
using Bench.Model.Entries;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Records;
using Bench.Records.Keys;

namespace Bench.Cli.Verbs;

/// <summary><c>bench correct</c>: sets a fact of a run's return right, as an entry beside the sealed record.</summary>
internal static class CorrectVerb
{
    private static readonly Option<CorrectedFact?> FactOption = new("--fact")
    {
        Description = "What is set right; what was measured can't be",
        HelpName = "serial|part-number|return-number|symptom|field-note",
        CustomParser = WordOption.Read<CorrectedFact>,
        Required = true,
    };

    private static readonly Option<string> ToOption = new("--to") { Description = "What holds; an empty text for nothing", HelpName = "TEXT", Required = true };
    private static readonly Option<string> BecauseOption = new("--because") { Description = "Why, in a sentence", HelpName = "TEXT", Required = true };
    private static readonly Option<string> ByOption = new("--by") { Description = "Your name", HelpName = "NAME", Required = true };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(StoreAccess.RunArgument);
        command.Add(FactOption);
        command.Add(ToOption);
        command.Add(BecauseOption);
        command.Add(ByOption);
        command.SetGuardedAction(CorrectAsync);
    }

    private static Task<int> CorrectAsync(ParseResult options)
    {
        CorrectedFact fact = options.GetRequiredValue(FactOption)!.Value;
        string given = options.GetRequiredValue(ToOption).Trim();
        string? to = given.Length == 0 ? null : given;
        if (CorrectedReturn.Refusal(fact, to) is { } refusal)
        {
            throw new CliException(ExitCode.BadInput, $"--to: {refusal}");
        }

        string because = SpokenText.Read(options, BecauseOption);
        string by = SpokenText.Read(options, ByOption);
        using BenchKey? key = KeyFile.Load();
        using RecordStore store = StoreAccess.OpenExisting(options, key);
        SealedRun run = StoreAccess.Find(store, options);
        string? was = CorrectedReturn.Get(run.Return, fact);
        if (was == to)
        {
            throw new CliException(ExitCode.BadInput, $"the {BenchJson.Word(fact)} of run {run.Record.Start.Id} is that already: {was ?? "nothing"}; no entry was made");
        }

        EntryOutput.Write(run, store.Correct(run, fact, to, because, by), options);
        if (fact == CorrectedFact.Symptom)
        {
            Terminal.Say($"The claim's outcome hangs on the symptom: judge again with 'bench judge {run.Record.Start.Id:D}'.");
        }

        return Task.FromResult(ExitCode.Done);
    }
}
