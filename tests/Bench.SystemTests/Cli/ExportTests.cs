using System.IO.Compression;
using System.Text.Json;

namespace Bench.SystemTests.Cli;

public class ExportTests(StoredRuns stored) : IClassFixture<StoredRuns>
{
    [Theory]
    [InlineData("--format", "pdf", "'csv', 'json', 'xlsx', 'parquet' or 'zip'")]
    [InlineData("--format", "0", "'csv', 'json', 'xlsx', 'parquet' or 'zip'")]
    [InlineData("--table", "units", "'runs', 'findings', 'features', 'moves' or 'trace'")]
    public async Task Export_WordThatIsNone_SaysWhichThereAre(string option, string word, string allowed) =>
        (await stored.RunAsync("export", option, word)).OnlySaid(2, $"{option} '{word}'", allowed);

    [Fact]
    public async Task Export_WithFilters_TakesWhatTheyChoose()
    {
        string[] everything = ["--outcome", "judged", "--disposition", "reusable", "--claim", "not-reproduced", "--symptom", "intermittent", "--since", "2020-01-01"];
        Assert.Equal(2, (await stored.RunAsync(["export", "--json", .. everything])).Said(0).Json().GetArrayLength());
        JsonElement one = (await stored.RunAsync("export", "--json", "--serial-prefix", "ZS3")).Said(0).Json();
        Assert.Equal("ZS3-20117", Assert.Single(one.EnumerateArray()).GetProperty("serial").GetString());
        Assert.Equal("run,serial,", (await stored.RunAsync("export", "--until", "2020-01-01")).Said(0).Output[..11]);
        (await stored.RunAsync("export", stored.Id, "--cause", "none")).OnlySaid(2, "--cause chooses among all runs");
    }

    [Theory]
    [InlineData("xlsx")]
    [InlineData("parquet")]
    public async Task Export_FormatThatIsNoText_AsksForAFile(string format) =>
        (await stored.RunAsync("export", "--format", format)).OnlySaid(2, $"--format {format}", "--out");

    [Fact]
    public async Task Export_WhatNeedsOneRun_AsksForIt()
    {
        (await stored.RunAsync("export", "--format", "zip")).OnlySaid(2, "bench export RUN --format zip --out FILE");
        (await stored.RunAsync("export", "--table", "trace")).OnlySaid(2, "bench export RUN --table trace");
        (await stored.RunAsync("export", "ffffffff")).OnlySaid(2, "ffffffff", "bench runs");
    }

    [Fact]
    public async Task Export_RunsAsJson_AreThoseOfTheStore()
    {
        JsonElement[] rows = [.. (await stored.RunAsync("export", "--json")).Said(0).Json().EnumerateArray()];

        Assert.Equal(["ND4-10417", "ZS3-20117"], rows.Select(r => r.GetProperty("serial").GetString()!).Order());
        Assert.All(rows, r => Assert.Equal("reusable", r.GetProperty("disposition").GetString()));
    }

    [Fact]
    public async Task Export_FileThatIsThere_IsKeptUnlessForced()
    {
        string file = stored.Folder.Write("kept.csv", "kept");
        (await stored.RunAsync("export", "--out", file)).OnlySaid(2, file, "--force");
        Assert.Equal("kept", await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken));

        (await stored.RunAsync("export", "--out", file, "--force")).Said(0);
        Assert.StartsWith("run,serial,", await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(stored.Folder.Path, "*.part"));
    }

    [Fact]
    public async Task Export_ClaimFileTwice_IsTheSameToTheByteAndHoldsThePacket()
    {
        string first = stored.Folder.At("first.zip");
        string second = stored.Folder.At("second.zip");
        (await stored.RunAsync("export", stored.Id, "--format", "zip", "--out", first)).Said(0);
        (await stored.RunAsync("export", stored.Id, "--format", "zip", "--out", second)).Said(0);

        Assert.Equal(await File.ReadAllBytesAsync(first, TestContext.Current.CancellationToken), await File.ReadAllBytesAsync(second, TestContext.Current.CancellationToken));
        using ZipArchive archive = ZipFile.OpenRead(first);
        Assert.Equal(
            ["README.txt", "packet.html", "packet.pdf", "record.json", "trace.parquet", "findings.csv", "features.csv", "moves.csv", "manifest.json"],
            archive.Entries.Select(e => e.FullName));
    }
}
