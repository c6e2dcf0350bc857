using System.CommandLine;
using Bench.Cli.Output;
using Bench.Records;
using Bench.Records.Copies;

namespace Bench.Cli.Verbs;

/// <summary><c>bench backup</c>: copies the store into one file, while runs may be written.</summary>
internal static class BackupVerb
{
    private static readonly Argument<string> FileArgument = new("FILE") { Description = "The backup to write (ZIP)" };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(FileArgument);
        command.SetGuardedAction(BackupAsync);
    }

    private static Task<int> BackupAsync(ParseResult options)
    {
        string file = Path.GetFullPath(options.GetRequiredValue(FileArgument));
        using RecordStore store = StoreAccess.OpenExisting(options);
        BackupManifest manifest = store.BackUp(file);
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(new { File = file, Manifest = manifest });
        }
        else
        {
            Terminal.Result($"{file}: {manifest.Files.Count} files, {manifest.Files.Sum(f => f.Bytes)} bytes before packing.");
        }

        foreach (string missing in manifest.Missing)
        {
            Terminal.Say($"{missing}: named in the records and not there; the backup is without it. 'bench verify' says more.");
        }

        return Task.FromResult(manifest.Missing.Count == 0 ? ExitCode.Done : ExitCode.BenchFault);
    }
}
