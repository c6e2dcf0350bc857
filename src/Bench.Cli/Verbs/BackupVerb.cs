using System.CommandLine;
using Bench.Records;
using Bench.Records.Copies;

namespace Bench.Cli.Verbs;

/// <summary><c>bench backup</c>: copies the store into one file, while runs may be written.</summary>
internal static class BackupVerb
{
    private static readonly Argument<string> FileArgument = CopyAnswer.File("The backup to write (ZIP)");

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(FileArgument);
        command.SetGuardedAction(BackupAsync);
    }

    private static Task<int> BackupAsync(ParseResult options)
    {
        string file = Path.GetFullPath(options.GetRequiredValue(FileArgument));
        using RecordStore store = StoreAccess.OpenToRead(options);
        BackupManifest manifest = store.BackUp(file);
        return CopyAnswer.Of(
            options,
            new { File = file, Manifest = manifest },
            $"{file}: {manifest.Files.Count} files, {manifest.Files.Sum(f => f.Bytes)} bytes before packing.",
            [.. manifest.Missing.Select(m => $"{m}: named in the records and not there; the backup is without it. 'bench verify' says more.")]);
    }
}
