using System.CommandLine;
using Bench.Cli.Output;
using Bench.Records;
using Bench.Records.Integrity;

namespace Bench.Cli.Verbs;

/// <summary><c>bench verify</c>: finds any altered, missing or reordered record, entry or file, and says who signed.</summary>
internal static class VerifyVerb
{
    private static readonly Option<string[]> SignedByOption = new("--signed-by")
    {
        Description = "Fingerprint of a key that you trust; what is unsigned or signed by another is then a problem",
        HelpName = "FINGERPRINT",
    };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(SignedByOption);
        command.SetGuardedAction(VerifyAsync);
    }

    private static Task<int> VerifyAsync(ParseResult options)
    {
        string[] trusted = [.. (options.GetValue(SignedByOption) ?? []).Select(Fingerprint)];
        using RecordStore store = StoreAccess.OpenToRead(options);
        IReadOnlyList<IntegrityProblem> problems = store.Verify(trusted);
        StoreContents contents = store.Contents();
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(new
            {
                contents.Runs,
                contents.Entries,
                contents.Unsigned,
                contents.Keys,
                contents.DroppedTraces,
                contents.LastRunHash,
                contents.LastEntryHash,
                Problems = problems,
            });
        }
        else
        {
            Print(contents, problems);
        }

        return Task.FromResult(problems.Count == 0 ? ExitCode.Done : ExitCode.BenchFault);
    }

    private static void Print(StoreContents contents, IReadOnlyList<IntegrityProblem> problems)
    {
        foreach (IntegrityProblem problem in problems)
        {
            Terminal.Result(problem.Text);
        }

        foreach (TraceDrop drop in contents.DroppedTraces)
        {
            Terminal.Result($"trace of run {drop.Run}: dropped by policy on {drop.MadeAt[..10]} by {drop.By}: {drop.Because}");
        }

        foreach (KeyUse key in contents.Keys)
        {
            Terminal.Result($"key {key.Fingerprint}, known since {key.IntroducedAt[..10]}: {key.Signed} signatures");
        }

        if (contents.Unsigned > 0)
        {
            Terminal.Result($"unsigned: {contents.Unsigned} records and entries");
        }

        if (contents.LastRunHash is { } run)
        {
            Terminal.Result($"last run hash    {run}");
        }

        if (contents.LastEntryHash is { } entry)
        {
            Terminal.Result($"last entry hash  {entry}");
        }

        string held = $"{contents.Runs} sealed runs and {contents.Entries} entries";
        Terminal.Result(problems.Count == 0
            ? $"{held}: records, order, signatures and files are as they were sealed."
            : $"{problems.Count} problems in {held}. Restore the data folder from a copy made before; keep this one as evidence.");
    }

    private static string Fingerprint(string text)
    {
        string digits = text.Trim().ToLowerInvariant();
        return digits.Length == FingerprintDigits && digits.All(char.IsAsciiHexDigit)
            ? digits
            : throw new CliException(ExitCode.BadInput, $"--signed-by {text}: a fingerprint has {FingerprintDigits} hexadecimal digits; 'bench key show' prints it where the key is");
    }

    private const int FingerprintDigits = 64;
}
