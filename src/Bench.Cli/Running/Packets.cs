using System.Text;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Records.Files;
using Bench.Reporting;

namespace Bench.Cli.Running;

/// <summary>Writes evidence packets to files: aside first, then renamed, so that nobody sees half a packet.</summary>
internal static class Packets
{
    /// <summary>Writes a run's packet into a folder.</summary>
    /// <returns>Full path of the file.</returns>
    /// <exception cref="CliException">The folder can't be written.</exception>
    public static string Write(SealedRun run, Trace trace, string folder)
    {
        string path = Path.Combine(Path.GetFullPath(folder), FileName(run.Record.Start));
        try
        {
            Directory.CreateDirectory(folder);
            WholeFile.Write(path, stream =>
            {
                using StreamWriter writer = new(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), leaveOpen: true);
                EvidencePacket.Write(run, trace, writer);
            });
            return path;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new CliException(ExitCode.BadInput, $"{path}: the packet can't be written: {e.Message} Choose another folder with --out or free some space.");
        }
    }

    // A serial is a person's text; only harmless characters go into a file name.
    private static string FileName(RunStart start)
    {
        StringBuilder name = new();
        foreach (char c in start.Return.Serial)
        {
            name.Append(char.IsAsciiLetterOrDigit(c) || c == '-' ? c : '_');
        }

        return $"{name}-{start.Id.ToString("N")[^12..]}.html";
    }
}
