using System.IO.Compression;
using System.Security.Cryptography;
using System.Text.Json;
using Bench.Cli.Exporting;
using Bench.Records.Traces;
using Bench.Tests.Reporting;

namespace Bench.Tests.Cli.Exporting;

public sealed class ClaimFileTests
{
    [Fact]
    public void Write_TheSameRunTwice_GivesTheSameBytes()
    {
        Assert.Equal(Zip(SampleRun.Healthy()), Zip(SampleRun.Healthy()));
    }

    [Fact]
    public void Write_ARun_ListsEveryFileWithItsHash()
    {
        using ZipArchive archive = new(new MemoryStream(Zip(SampleRun.DeadSensors())));
        using JsonDocument manifest = JsonDocument.Parse(Bytes(archive, ClaimFile.ManifestName));
        Dictionary<string, string?> listed = manifest.RootElement.GetProperty("files").EnumerateArray()
            .ToDictionary(f => f.GetProperty("name").GetString()!, f => f.GetProperty("sha256").GetString());
        Assert.Equal(archive.Entries.Select(e => e.FullName).Where(n => n != ClaimFile.ManifestName), listed.Keys);
        Assert.Contains("trace.parquet", listed.Keys);
        Assert.All(listed, f => Assert.Equal(f.Value, Convert.ToHexStringLower(SHA256.HashData(Bytes(archive, f.Key)))));
    }

    private static byte[] Zip(SampleRun sample)
    {
        using MemoryStream stream = new();
        ClaimFile.Write(sample.Run, sample.Trace, TraceFile.Encode(sample.Run.Record.Start.Id, sample.Trace), null, _ => null, stream);
        return stream.ToArray();
    }

    private static byte[] Bytes(ZipArchive archive, string name)
    {
        using MemoryStream bytes = new();
        using Stream entry = archive.GetEntry(name)!.Open();
        entry.CopyTo(bytes);
        return bytes.ToArray();
    }
}
