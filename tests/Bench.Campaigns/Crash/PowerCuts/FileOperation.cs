namespace Bench.Campaigns.Crash.PowerCuts;

/// <summary>What a program asked of the file system, in the order of <paramref name="Entered"/>.</summary>
/// <param name="Kind">What.</param>
/// <param name="Path">The file or folder, by its name then; of an acknowledgement, the line.</param>
/// <param name="To">New name, of a renaming.</param>
/// <param name="At">Where in the file, bytes; the new size, of a truncation.</param>
/// <param name="Bytes">What was written.</param>
/// <param name="Entered">When it was asked, as a line of the log.</param>
/// <param name="Done">When it had returned.</param>
internal sealed record FileOperation(FileOperationKind Kind, string Path, string To, long At, byte[] Bytes, int Entered, int Done);
