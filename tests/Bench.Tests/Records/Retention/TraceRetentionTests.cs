using Bench.Model.Entries;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Records.Copies;
using Bench.Records.Integrity;

namespace Bench.Tests.Records.Retention;

/// <summary>Runs here began 61 days and some hours ago.</summary>
public sealed class TraceRetentionTests : IDisposable
{
    private readonly DataFolder _folder = new();
    private readonly RecordStore _store;
    private readonly Guid _run;

    public TraceRetentionTests()
    {
        _store = _folder.Open();
        _run = RunWriting.Seal(_store, SampleRuns.Start()).Start.Id;
    }

    private SealedRun Run => _store.Find(_run.ToString())!;

    private string Trace => Path.Combine(_folder.Path, Run.TraceFile!);

    [Theory]
    [InlineData(61, 1)]
    [InlineData(62, 0)]
    public void OldTraces_ByAge_AreListedAndKept(int days, int count)
    {
        Assert.Equal(count, _store.OldTraces(days).Count);
        Assert.True(File.Exists(Trace));
        Assert.Empty(Run.Entries);
    }

    [Fact]
    public void DropTraces_OldRun_TakesTheFileAndKeepsRecordAndHash()
    {
        string hash = Run.TraceSha256!;
        _store.DropTraces(61, "Traces are kept for 60 days.", "R. Halloway");

        Assert.False(File.Exists(Trace));
        DroppedTrace entry = Assert.IsType<DroppedTrace>(Assert.Single(Run.Entries).Entry);
        Assert.Equal((hash, 61, "R. Halloway"), (entry.TraceSha256, entry.OlderThanDays, entry.By));
        Assert.Equal(hash, Run.TraceSha256);
        Assert.Empty(_store.Verify());
        Assert.Equal(_run.ToString(), Assert.Single(_store.Contents().DroppedTraces).Run);
    }

    [Fact]
    public void LoadTrace_Dropped_SaysWhoDroppedItAndWhen()
    {
        _store.DropTraces(61, "Kept for 60 days.", "R. Halloway");
        Assert.Contains(
            "was dropped by policy on 2031-03-04 by R. Halloway (Kept for 60 days.)",
            Assert.Throws<StoreException>(() => _store.LoadTrace(Run)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void DropTraces_Again_DropsNothingMore()
    {
        _store.DropTraces(61, "Kept for 60 days.", "R. Halloway");
        Assert.Empty(_store.DropTraces(61, "Kept for 60 days.", "R. Halloway"));
        Assert.Single(Run.Entries);
    }

    [Fact]
    public void DropTraces_AfterOneThatDiedBetweenEntryAndFile_TakesTheFileWithoutAnotherEntry()
    {
        byte[] bytes = File.ReadAllBytes(Trace);
        _store.DropTraces(61, "Kept for 60 days.", "R. Halloway");
        File.WriteAllBytes(Trace, bytes);
        Assert.Empty(_store.Verify());

        Assert.Single(_store.DropTraces(61, "Kept for 60 days.", "R. Halloway"));
        Assert.False(File.Exists(Trace));
        Assert.Single(Run.Entries);
    }

    [Theory]
    [InlineData("DELETE FROM entry", IntegrityProblemKind.TraceMissing)]
    [InlineData("UPDATE entry SET entry = replace(entry, 'dropped-trace', 'note')", IntegrityProblemKind.EntryAltered)]
    public void Verify_EntryOfTheDropTamperedWith_MissesTheTrace(string sql, IntegrityProblemKind kind)
    {
        _store.DropTraces(61, "Kept for 60 days.", "R. Halloway");
        _folder.Tamper(sql);
        Assert.Contains(kind, _store.Verify().Select(p => p.Kind));
    }

    [Fact]
    public void BackUp_DroppedTrace_IsNotMissed()
    {
        _store.DropTraces(61, "Kept for 60 days.", "R. Halloway");
        using DataFolder elsewhere = new();
        BackupManifest manifest = _store.BackUp(Path.Combine(elsewhere.Path, "b.zip"));
        Assert.Empty(manifest.Missing);
        Assert.Equal(["bench.db"], manifest.Files.Select(f => f.Name));
    }

    public void Dispose()
    {
        _store.Dispose();
        _folder.Dispose();
    }
}
