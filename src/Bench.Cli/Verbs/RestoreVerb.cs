using System.CommandLine;
using Bench.Cli.Output;
using Bench.Records;
using Bench.Records.Copies;
using Bench.Records.Integrity;

namespace Bench.Cli.Verbs;

/// <summary><c>bench restore</c>: makes a data folder of a backup.</summary>
internal static class RestoreVerb
{
    private static readonly Argument<string> FileArgument = CopyAnswer.File("The backup");

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(FileArgument);
        command.SetGuardedAction(RestoreAsync);
    }

    private static Task<int> RestoreAsync(ParseResult options)
    {
        string folder = DataFolder.Resolve(options.GetValue(CommonOptions.Data));
        BackupManifest manifest = Restoring.Run(options.GetRequiredValue(FileArgument), folder);
        using RecordStore store = StoreAccess.OpenExisting(options);
        IReadOnlyList<IntegrityProblem> problems = store.Verify();
        int open = store.List().Count(r => r.Open);
        if (open > 0)
        {
            Terminal.Say($"{open} of its runs were being written then; the next 'bench run' closes them from their journals as aborted. Where the bench they were made on goes on, its own record of them counts.");
        }

        return CopyAnswer.Of(
            options,
            new { Folder = folder, Files = manifest.Files.Count, manifest.MadeAt, OpenRuns = open, Problems = problems },
            $"{folder}: {manifest.Files.Count} files as they were on {manifest.MadeAt:yyyy-MM-dd HH:mm} UTC.",
            [.. problems.Select(p => $"The store was so when it was backed up: {p.Text}")]);
    }
}
