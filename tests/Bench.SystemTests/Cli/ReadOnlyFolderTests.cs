using System.IO.Compression;
using Bench.Records;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

/// <summary>A data folder that may not be written, such as an archive on a read-only share; and runs whose trace was dropped.</summary>
public sealed class ReadOnlyFolderTests : IAsyncLifetime
{
    private readonly TemporaryFolder _folder = new();
    private string _id = "";

    public async ValueTask InitializeAsync() =>
        _id = (await RunAsync("demo", "--only", "healthy", "--json")).Said(0).Json()[0].GetProperty("run").GetString()!;

    public ValueTask DisposeAsync()
    {
        _folder.Dispose();
        return ValueTask.CompletedTask;
    }

    [Fact]
    public async Task ReadingVerbs_FolderThatMayNotBeWritten_WorkAndWritingOnesSaySo()
    {
        await using Mount frozen = await Mount.FreezeAsync(_folder.At("data"));
        Assert.Contains(_id, (await RunAsync("runs")).Said(0).Output, StringComparison.Ordinal);
        (await RunAsync("show", _id)).Said(0);
        (await RunAsync("verify")).Said(0);
        (await RunAsync("report", _id, "--out", _folder.At("a.pdf"))).Said(0);
        (await RunAsync("export", _id, "--format", "zip", "--out", _folder.At("a.zip"))).Said(0);
        (await RunAsync("compare", _id, _id)).Said(0);
        (await RunAsync("backup", _folder.At("b.zip"))).Said(0);
        (await RunAsync("note", _id, "--text", "seen", "--by", "R. Alder")).OnlySaid(2, "read-only");
    }

    // What a program that was killed left in the log is not passed over in silence.
    [Fact]
    public async Task Runs_LogLeftBehindInAReadOnlyFolder_SaysToCopyIt()
    {
        await File.WriteAllTextAsync(_folder.At("data", "bench.db-wal"), "left", TestContext.Current.CancellationToken);
        await using Mount frozen = await Mount.FreezeAsync(_folder.At("data"));
        (await RunAsync("runs")).OnlySaid(2, "bench.db-wal", "copy the data folder");
    }

    [Fact]
    public async Task ReportAndExport_TraceDroppedByPolicy_SayItAndGiveWhatRemains()
    {
        using (RecordStore store = RecordStore.Open(_folder.At("data"), new ThreeDaysOn()))
        {
            store.DropTraces(1, "policy of the depot", "R. Alder");
        }

        string page = _folder.At("page.html"), zip = _folder.At("claim.zip");
        (await RunAsync("report", _id, "--out", page)).Said(0, "was dropped by policy", "what needs it is left out");
        Assert.Contains("because the trace was dropped by policy on", await File.ReadAllTextAsync(page, TestContext.Current.CancellationToken), StringComparison.Ordinal);
        (await RunAsync("export", _id, "--format", "zip", "--out", zip)).Said(0, "was dropped by policy");
        using ZipArchive archive = ZipFile.OpenRead(zip);
        Assert.Null(archive.GetEntry("trace.parquet"));
        Assert.NotNull(archive.GetEntry("packet.pdf"));
        (await RunAsync("export", _id, "--table", "trace")).OnlySaid(2, "was dropped by policy");
    }

    private Task<Finished> RunAsync(params string[] arguments) => BenchProgram.RunAsync([.. arguments, "--data", _folder.At("data")]);

    private sealed class ThreeDaysOn : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => base.GetUtcNow() + TimeSpan.FromDays(3);
    }
}
