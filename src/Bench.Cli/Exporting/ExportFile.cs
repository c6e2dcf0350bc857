using Bench.Records.Files;

namespace Bench.Cli.Exporting;

/// <summary>Puts an export in its place: written aside, then renamed, so that nobody reads half of it.</summary>
internal static class ExportFile
{
    /// <summary>Writes a file.</summary>
    /// <param name="path">Where.</param>
    /// <param name="overwrite">Whether one that is there may be replaced.</param>
    /// <param name="write">Writes the content.</param>
    /// <returns>Its full path.</returns>
    /// <exception cref="CliException">It is there already, or can't be written.</exception>
    public static string Write(string path, bool overwrite, Action<Stream> write)
    {
        string full = Path.GetFullPath(path);
        if (Directory.Exists(full))
        {
            throw new CliException(ExitCode.BadInput, $"{full}: is a folder; name a file with --out");
        }

        if (File.Exists(full) && !overwrite)
        {
            throw new CliException(ExitCode.BadInput, $"{full}: is there already; choose another name with --out, or replace it with --force");
        }

        try
        {
            WholeFile.Write(full, write, overwrite);
            return full;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new CliException(ExitCode.BadInput, $"{full}: the export can't be written: {e.Message} Choose another place with --out or free some space.");
        }
    }
}
