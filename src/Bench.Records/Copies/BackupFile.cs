namespace Bench.Records.Copies;

/// <summary>A file in a backup.</summary>
/// <param name="Name">Path within the data folder, with forward slashes.</param>
/// <param name="Bytes">Length.</param>
/// <param name="Sha256">SHA-256, lower-case hexadecimal.</param>
public sealed record BackupFile(string Name, long Bytes, string Sha256);
