namespace Bench.Records.Copies;

/// <summary>What a backup holds: the first thing in it (docs/records.md).</summary>
public sealed record BackupManifest
{
    /// <summary>Name within the backup.</summary>
    public const string FileName = "manifest.json";

    /// <summary>The format this program writes.</summary>
    public const int CurrentFormat = 1;

    /// <summary>Format of the backup.</summary>
    public required int Format { get; init; }

    /// <summary>When it was made.</summary>
    public required DateTimeOffset MadeAt { get; init; }

    /// <summary>Hash of the last sealed run; null when there is none.</summary>
    public required string? LastRunHash { get; init; }

    /// <summary>Hash of the last entry; null when there is none.</summary>
    public required string? LastEntryHash { get; init; }

    /// <summary>The files, the database first.</summary>
    public required IReadOnlyList<BackupFile> Files { get; init; }

    /// <summary>Files that the database names and the data folder did not have.</summary>
    public required IReadOnlyList<string> Missing { get; init; }
}
