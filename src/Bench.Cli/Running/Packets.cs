using System.Text;
using Bench.Analysis.Currents;
using Bench.Model.Features;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Records;
using Bench.Records.Files;
using Bench.Reporting;

namespace Bench.Cli.Running;

/// <summary>Writes what is reported of runs to files: aside first, then renamed, so that nobody sees half of one.</summary>
internal static class Packets
{
    /// <summary>Writes what is reported of a run into a folder.</summary>
    /// <returns>Full path of the file.</returns>
    /// <exception cref="CliException">The folder can't be written.</exception>
    public static string Write(RecordStore store, SealedRun run, string folder, PacketFormat format = PacketFormat.Html) => format switch
    {
        PacketFormat.Pdf => Packet(store, run, folder, ".pdf", (trace, reference, output) => EvidencePdf.Write(run, trace, output, reference)),
        PacketFormat.Traveller => Write(folder, FileName(run.Record.Start, "-traveller.pdf"), output => Traveller.Write(run, output)),
        PacketFormat.TravellerA6 => Write(folder, FileName(run.Record.Start, "-traveller-a6.pdf"), output => Traveller.WriteShort(run, output)),
        PacketFormat.Label => Write(folder, FileName(run.Record.Start, "-label.pdf"), output => UnitLabel.Write(run, output)),
        _ => Packet(store, run, folder, ".html", (trace, reference, output) => Text(output, writer => EvidencePacket.Write(run, trace, writer, reference))),
    };

    /// <summary>What healthy units showed, as far as a store has them.</summary>
    public static CurrentReference Reference(RecordStore store, SealedRun run) =>
        HealthyBand.Of(store.HealthyCurrents(run.Record.Start, HealthyBand.EnoughUnits));

    private static string Packet(RecordStore store, SealedRun run, string folder, string ending, Action<Trace, CurrentReference, Stream> write)
    {
        Trace trace = store.LoadTrace(run);
        CurrentReference reference = Reference(store, run);
        return Write(folder, FileName(run.Record.Start, ending), output => write(trace, reference, output));
    }

    /// <summary>Name of a run's file: its serial number, and the end of its id.</summary>
    /// <param name="start">The run.</param>
    /// <param name="ending">What follows.</param>
    /// <remarks>A serial is a person's text; only harmless characters go into a file name.</remarks>
    public static string FileName(RunStart start, string ending)
    {
        StringBuilder name = new();
        foreach (char c in start.Return.Serial)
        {
            name.Append(char.IsAsciiLetterOrDigit(c) || c == '-' ? c : '_');
        }

        return $"{name}-{start.Id.ToString("N")[^12..]}{ending}";
    }

    /// <summary>Writes text as the packets have it: UTF-8 without byte order mark.</summary>
    public static void Text(Stream output, Action<TextWriter> write)
    {
        using StreamWriter writer = new(output, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), leaveOpen: true);
        write(writer);
    }

    /// <summary>Writes a file of a folder.</summary>
    /// <returns>Its full path.</returns>
    /// <exception cref="CliException">The folder can't be written.</exception>
    public static string Write(string folder, string name, Action<Stream> write)
    {
        string path = Path.Combine(Path.GetFullPath(folder), name);
        try
        {
            Directory.CreateDirectory(folder);
            WholeFile.Write(path, write);
            return path;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new CliException(ExitCode.BadInput, $"{path}: the packet can't be written: {e.Message} Choose another folder with --out or free some space.");
        }
    }
}
