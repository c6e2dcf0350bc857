using System.Text;
using Bench.Analysis.Currents;
using Bench.Cli.Verbs;
using Bench.Model.Features;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Records.Files;
using Bench.Reporting;

namespace Bench.Cli.Running;

/// <summary>Writes what is reported of runs to files: aside first, then renamed, so that nobody sees half of one.</summary>
internal static class Packets
{
    /// <summary>Writes a run's evidence packet into a folder.</summary>
    /// <param name="store">The store that holds its trace and photos, and healthy units to compare it with.</param>
    /// <param name="run">The run.</param>
    /// <param name="folder">The folder; it is made where there is none.</param>
    /// <returns>Full path of the file.</returns>
    /// <exception cref="CliException">The folder can't be written.</exception>
    public static string Write(RecordStore store, SealedRun run, string folder) =>
        Write(store, run, PacketFormat.Html, Path.Combine(folder, FileName(run, Ending(PacketFormat.Html))));

    /// <summary>Writes what is reported of a run.</summary>
    /// <param name="store">Where the run, its trace and healthy units to compare it with are.</param>
    /// <param name="run">The run.</param>
    /// <param name="format">What is written.</param>
    /// <param name="path">The file; its folder is made.</param>
    /// <returns>Full path of the file.</returns>
    /// <exception cref="CliException">The file can't be written.</exception>
    public static string Write(RecordStore store, SealedRun run, PacketFormat format, string path) => Write(path, format switch
    {
        PacketFormat.Pdf => output => EvidencePdf.Write(run, StoreAccess.TraceOf(store, run), output, Reference(store, run), store.ReadAttachment),
        PacketFormat.Traveller => output => Traveller.Write(run, output),
        PacketFormat.TravellerA6 => output => Traveller.WriteShort(run, output),
        PacketFormat.Label => output => UnitLabel.Write(run, output),
        _ => output => Text(output, writer => EvidencePacket.Write(run, StoreAccess.TraceOf(store, run), writer, Reference(store, run), store.ReadAttachment)),
    });

    /// <summary>What the name of a file ends with.</summary>
    public static string Ending(PacketFormat format) => format switch
    {
        PacketFormat.Pdf => ".pdf",
        PacketFormat.Traveller => "-traveller.pdf",
        PacketFormat.TravellerA6 => "-traveller-a6.pdf",
        PacketFormat.Label => "-label.pdf",
        _ => ".html",
    };

    /// <summary>What healthy units showed, as far as a store has them.</summary>
    public static CurrentReference Reference(RecordStore store, SealedRun run) =>
        HealthyBand.Of(store.HealthyCurrents(run.Record.Start, HealthyBand.EnoughUnits));

    /// <summary>Name of a run's file: its serial number, and the end of its id.</summary>
    /// <param name="run">The run.</param>
    /// <param name="ending">What follows.</param>
    /// <remarks>A serial is a person's text; only harmless characters go into a file name.</remarks>
    public static string FileName(SealedRun run, string ending)
    {
        StringBuilder name = new();
        foreach (char c in run.Return.Serial)
        {
            name.Append(char.IsAsciiLetterOrDigit(c) || c == '-' ? c : '_');
        }

        return $"{name}-{run.Record.Start.Id.ToString("N")[^12..]}{ending}";
    }

    /// <summary>Writes text as the packets have it: UTF-8 without byte order mark.</summary>
    public static void Text(Stream output, Action<TextWriter> write)
    {
        using StreamWriter writer = new(output, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), leaveOpen: true);
        write(writer);
    }

    /// <summary>Writes a file; its folder is made where there is none.</summary>
    /// <returns>Its full path.</returns>
    /// <exception cref="CliException">It can't be written.</exception>
    public static string Write(string path, Action<Stream> write)
    {
        string full = Path.GetFullPath(path);
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(full)!);
            WholeFile.Write(full, write);
            return full;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new CliException(ExitCode.BadInput, $"{full}: the packet can't be written: {e.Message} Choose another place with --out or free some space.");
        }
    }
}
