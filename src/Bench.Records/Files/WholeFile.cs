namespace Bench.Records.Files;

/// <summary>
/// Files that are whole under their own name, or not there: written aside, flushed to the disk, renamed, and the rename
/// flushed too. Without the first flush a pulled plug may leave the name on an empty file.
/// </summary>
public static class WholeFile
{
    /// <summary>What stands at the end of a name while the file is written. A file that still has it was cut short.</summary>
    public const string Unfinished = ".part";

    /// <summary>Writes a file.</summary>
    /// <param name="path">Where.</param>
    /// <param name="write">Writes the content.</param>
    /// <param name="overwrite">Whether one that is there is replaced.</param>
    /// <param name="durability">Whether it outlives a pulled plug when this returns.</param>
    /// <exception cref="IOException">It can't be written, is there already, or another program is writing it; nothing is changed.</exception>
    /// <exception cref="UnauthorizedAccessException">This user may not write it.</exception>
    public static void Write(string path, Action<Stream> write, bool overwrite = true, Durability durability = Durability.Full)
    {
        ArgumentNullException.ThrowIfNull(write);
        string aside = path + Unfinished;

        // Outside of what is discarded after a failure: one that another program is writing is not ours to delete.
        FileStream stream = new(aside, FileMode.Create, FileAccess.Write, FileShare.None);
        try
        {
            using (stream)
            {
                write(stream);
                stream.Flush(flushToDisk: durability == Durability.Full);
            }

            Rename(aside, path, overwrite, durability);
        }
        catch
        {
            Discard(aside);
            throw;
        }
    }

    /// <summary>Puts a file that something else wrote aside (at <paramref name="path"/> and <see cref="Unfinished"/>) in its place.</summary>
    /// <exception cref="IOException">It can't be flushed or renamed.</exception>
    /// <exception cref="UnauthorizedAccessException">This user may not.</exception>
    internal static void Publish(string path)
    {
        string aside = path + Unfinished;
        using (FileStream stream = new(aside, FileMode.Open, FileAccess.ReadWrite, FileShare.None))
        {
            stream.Flush(flushToDisk: true);
        }

        Rename(aside, path, overwrite: true, Durability.Full);
    }

    private static void Rename(string aside, string path, bool overwrite, Durability durability)
    {
        File.Move(aside, path, overwrite);
        if (durability == Durability.Full)
        {
            FolderEntries.Flush(Path.GetDirectoryName(Path.GetFullPath(path))!);
        }
    }

    private static void Discard(string aside)
    {
        try
        {
            File.Delete(aside);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // What made writing fail is told already.
        }
    }
}
