using System.CommandLine;
using Bench.Cli.Output;
using Bench.Model.Entries;
using Bench.Model.Runs;
using Bench.Model.Serialization;

namespace Bench.Cli.Verbs;

/// <summary><c>bench correct</c>: sets a fact of a run's return right, as an entry beside the sealed record.</summary>
internal static class CorrectVerb
{
    private const string InspectionPrefix = "inspection.";

    private static readonly CorrectedFact[] Whole = [.. Enum.GetValues<CorrectedFact>().Where(f => f != CorrectedFact.Inspection)];

    private static readonly Option<string> FactOption = new("--fact")
    {
        Description = $"What is set right: {string.Join(", ", Whole.Select(f => BenchJson.Word(f)))}, or inspection.ITEM for an answer of the arrival inspection; what was measured can't be",
        HelpName = "FACT",
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
        (CorrectedFact fact, string? item) = Fact(options.GetRequiredValue(FactOption).Trim());
        string given = options.GetRequiredValue(ToOption).Trim();
        string? to = given.Length == 0 ? null : given;
        string because = SpokenText.Read(options, BecauseOption);
        string by = SpokenText.Read(options, ByOption);
        return EntryMaking.RunAsync(options, (store, run) =>
        {
            Check(run, fact, item, to);
            SealedEntry entry = store.Correct(run, fact, to, because, by, item);
            if (fact is CorrectedFact.Symptom or CorrectedFact.Inspection)
            {
                Terminal.Say($"The {(fact == CorrectedFact.Symptom ? "claim's outcome hangs on the symptom" : "verdict hangs on the arrival inspection")}: judge again with 'bench judge {run.Record.Start.Id:D}'.");
            }

            return entry;
        });
    }

    private static (CorrectedFact Fact, string? Item) Fact(string text)
    {
        if (text.StartsWith(InspectionPrefix, StringComparison.Ordinal))
        {
            return (CorrectedFact.Inspection, text[InspectionPrefix.Length..]);
        }

        foreach (CorrectedFact fact in Whole)
        {
            if (text.Equals(BenchJson.Word(fact), StringComparison.OrdinalIgnoreCase))
            {
                return (fact, null);
            }
        }

        throw new CliException(ExitCode.BadInput, $"--fact '{text}': give {string.Join(", ", Whole.Select(f => $"'{BenchJson.Word(f)}'"))} or 'inspection.ITEM'");
    }

    private static void Check(SealedRun run, CorrectedFact fact, string? item, string? to)
    {
        if (CorrectedReturn.Refusal(fact, to, run.Record.Start.Profile, item) is { } refusal)
        {
            throw new CliException(ExitCode.BadInput, $"--fact, --to: {refusal}");
        }

        string? was = CorrectedReturn.Get(run.Return, fact, item);
        if (was == to)
        {
            throw new CliException(ExitCode.BadInput, $"the {item ?? BenchJson.Word(fact)} of run {run.Record.Start.Id} is that already: {was ?? "nothing"}; no entry was made");
        }
    }
}
