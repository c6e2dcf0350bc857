using Bench.Model.BenchFiles;
using Bench.Model.Configuration;
using Bench.Model.Profiles;
using Bench.Model.Returns;

namespace Bench.Cli;

/// <summary>Reads the files a user names.</summary>
internal static class UserFiles
{
    /// <summary>Largest file that is read at all; a profile has a few kilobytes.</summary>
    private const long MostBytes = 1 << 20;

    /// <summary>Reads a profile.</summary>
    /// <exception cref="CliException">It can't be read.</exception>
    /// <exception cref="ConfigurationException">It is wrong.</exception>
    public static Profile Profile(string path) => ProfileReader.Read(Bytes(path, "profile"), path);

    /// <summary>Reads a bench file.</summary>
    /// <exception cref="CliException">It can't be read.</exception>
    /// <exception cref="ConfigurationException">It is wrong.</exception>
    public static BenchFile Bench(string path) => BenchFileReader.Read(Bytes(path, "bench file"), path);

    /// <summary>Reads a units file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="positions">Positions of the bench.</param>
    /// <exception cref="CliException">It can't be read.</exception>
    /// <exception cref="ConfigurationException">It is wrong.</exception>
    public static IReadOnlyList<ListedUnit> Units(string path, IReadOnlyCollection<string> positions) =>
        UnitListReader.Read(Bytes(path, "units file"), path, positions);

    /// <summary>Reads an intake file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="form">The form it answers.</param>
    /// <exception cref="CliException">It can't be read.</exception>
    /// <exception cref="ConfigurationException">It is wrong.</exception>
    public static Dictionary<string, IReadOnlyList<string>> Intake(string path, IntakeForm form) =>
        IntakeFileReader.Read(Bytes(path, "intake file"), path, form);

    private static byte[] Bytes(string path, string what)
    {
        try
        {
            FileInfo file = new(path);
            if (!file.Exists)
            {
                throw new CliException(ExitCode.BadInput, $"{path}: there is no such {what}; give the path of a .toml file");
            }

            if (file.Length > MostBytes)
            {
                throw new CliException(ExitCode.BadInput, $"{path}: {file.Length} bytes is more than a {what} has (at most {MostBytes}); is it the right file?");
            }

            return File.ReadAllBytes(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            throw new CliException(ExitCode.BadInput, $"{path}: the {what} can't be read: {e.Message}");
        }
    }
}
