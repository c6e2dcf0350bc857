using System.IO.Compression;
using System.Text;
using System.Text.Json;
using Bench.Model.Features;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Model.Traces;
using Bench.Records.Canonical;
using Bench.Records.Integrity;
using Bench.Reporting;

namespace Bench.Cli.Exporting;

/// <summary>
/// One run whole, as a ZIP for who has neither bench nor store: packet, record, trace, tables, a note, and a manifest
/// with the SHA-256 of each (docs/export.md). The same run gives the same bytes with the same program.
/// </summary>
internal static class ClaimFile
{
    /// <summary>Name of the manifest.</summary>
    public const string ManifestName = "manifest.json";

    /// <summary>Writes the file.</summary>
    /// <param name="run">The run.</param>
    /// <param name="trace">Its trace.</param>
    /// <param name="traceFile">Bytes of its trace file as sealed; null when it has no samples.</param>
    /// <param name="reference">What healthy units showed; null when nobody looked.</param>
    /// <param name="attached">Gives the content of a photo of the return; null where it is gone.</param>
    /// <param name="output">Where it goes. Stays open.</param>
    public static void Write(SealedRun run, Trace trace, byte[]? traceFile, CurrentReference? reference, Func<Attachment, byte[]?> attached, Stream output)
    {
        using ZipArchive archive = new(output, ZipArchiveMode.Create, leaveOpen: true);
        List<ManifestEntry> manifest = [];
        foreach ((string name, byte[] bytes) in Contents(run, trace, traceFile, reference, attached))
        {
            manifest.Add(new ManifestEntry(name, bytes.Length, Fingerprint.Of(bytes)));
            Add(archive, run, name, bytes);
        }

        var list = new
        {
            Run = run.Record.Start.Id,
            run.Record.Start.Return.Serial,
            run.Hash,
            run.PreviousHash,
            run.TraceSha256,
            Files = manifest,
        };
        Add(archive, run, ManifestName, Encoding.UTF8.GetBytes(JsonSerializer.Serialize(list, BenchJson.Indented) + "\n"));
    }

    private static IEnumerable<(string Name, byte[] Bytes)> Contents(SealedRun run, Trace trace, byte[]? traceFile, CurrentReference? reference, Func<Attachment, byte[]?> attached)
    {
        yield return ("README.txt", Encoding.UTF8.GetBytes(Note(run)));
        yield return ("packet.html", Text(writer => EvidencePacket.Write(run, trace, writer, reference, attached)));
        yield return ("packet.pdf", Bytes(output => EvidencePdf.Write(run, trace, output, reference, attached)));
        yield return ("record.json", Encoding.UTF8.GetBytes(CanonicalJson.Write(run.Record)));
        if (traceFile is not null)
        {
            yield return ("trace.parquet", traceFile);
        }

        yield return ("findings.csv", Text(writer => CsvText.Write(RunTables.Findings([run]), writer)));
        yield return ("features.csv", Text(writer => CsvText.Write(RunTables.Features([run]), writer)));
        yield return ("moves.csv", Text(writer => CsvText.Write(RunTables.Moves([run]), writer)));
    }

    private static byte[] Bytes(Action<Stream> write)
    {
        using MemoryStream output = new();
        write(output);
        return output.ToArray();
    }

    private static byte[] Text(Action<TextWriter> write)
    {
        using StringWriter writer = new() { NewLine = "\n" };
        write(writer);
        return Encoding.UTF8.GetBytes(writer.ToString());
    }

    private static void Add(ZipArchive archive, SealedRun run, string name, byte[] bytes)
    {
        ZipArchiveEntry entry = archive.CreateEntry(name, CompressionLevel.Optimal);

        // The run's end, not the time of writing: the same run must give the same bytes.
        entry.LastWriteTime = run.Record.EndedAt.ToUniversalTime();
        using Stream stream = entry.Open();
        stream.Write(bytes);
    }

    private static string Note(SealedRun run) =>
        $"""
        Claim file of run {run.Record.Start.Id:D}{(run.Record.Start.Simulated ? " (simulated)" : string.Empty)}

        packet.html    the evidence packet; open it in any browser, it needs nothing else
        packet.pdf     the same for paper
        record.json    the sealed record, canonical JSON (RFC 8785)
        trace.parquet  every sample of the run (Apache Parquet); absent when there is none,
                       or when it was dropped by policy (the manifest has its SHA-256 then)
        findings.csv, features.csv, moves.csv
                       tables of the record (RFC 4180, UTF-8); text that begins with = + - @
                       has an apostrophe before it, so that no spreadsheet takes it for a formula
        {ManifestName}  size and SHA-256 of each file, and the hashes the run was sealed with

        Is it what the bench sealed? The SHA-256 of record.json, a line feed, the SHA-256 of
        trace.parquet (nothing when absent), a line feed, and previous_hash is the run's hash.
        The manifest alone proves nothing: compare the run's hash with the one the bench's
        store or a printed packet shows.

        """;

    private sealed record ManifestEntry(string Name, long Bytes, string Sha256);
}
