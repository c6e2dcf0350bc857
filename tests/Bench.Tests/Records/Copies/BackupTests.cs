using System.IO.Compression;
using Bench.Model.Entries;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Records.Copies;
using Bench.Records.Integrity;
using Bench.Records.Runs;

namespace Bench.Tests.Records.Copies;

public sealed class BackupTests : IDisposable
{
    private readonly DataFolder _folder = new();
    private readonly DataFolder _elsewhere = new();
    private readonly RecordStore _store;
    private readonly Guid _run;

    public BackupTests()
    {
        _store = _folder.Open();
        _run = RunWriting.Seal(_store, SampleRuns.Start()).Start.Id;
        RunWriting.Seal(_store, SampleRuns.Start(2));
        _store.AddNote(_run, "Seen.", "R. Halloway");
    }

    private string File => Path.Combine(_elsewhere.Path, "backup.zip");

    private string To => Path.Combine(_elsewhere.Path, "restored");

    [Fact]
    public void Restore_Backup_IsTheStoreElsewhere()
    {
        BackupManifest made = _store.BackUp(File);
        BackupManifest read = Restoring.Run(File, To);

        using RecordStore restored = RecordStore.Open(To, new FixedTime(), Durability.Relaxed);
        SealedRun run = restored.Find(_run.ToString())!;
        Assert.Equal(made.Files, read.Files);
        Assert.Empty(restored.Verify());
        Assert.Equal(_store.Contents().LastRunHash, read.LastRunHash);
        Assert.Equal(_store.Contents().LastEntryHash, restored.Contents().LastEntryHash);
        Assert.Equal(_store.LoadTrace(run).Count, restored.LoadTrace(run).Count);
        Assert.IsType<Note>(Assert.Single(run.Entries).Entry);
        Assert.Equal(["backup.zip", "restored"], Directory.GetFileSystemEntries(_elsewhere.Path).Select(Path.GetFileName).Order());
    }

    [Fact]
    public void Restore_BackupMadeDuringARun_ClosesThatRunFromItsJournal()
    {
        RunStart start = SampleRuns.Start(3);
        using IRunJournal journal = _store.Begin(start);
        journal.Write(SampleRuns.Events[0]);
        _store.BackUp(File);
        Restoring.Run(File, To);

        // The process that writes it lives, but not for the copy.
        using RecordStore restored = RecordStore.Open(To, new FixedTime(), Durability.Relaxed);
        Assert.Equal(AbortReason.HostDied, Assert.Single(restored.RecoverInterrupted()).Abort);
        Assert.True(_store.List(new RunFilter { Open = true }).Single().Open);
        Assert.Empty(_store.RecoverInterrupted());
    }

    [Fact]
    public void BackUp_FolderMovedAsAWhole_OpensAndVerifies()
    {
        _store.Dispose();
        Directory.Move(_folder.Path, To);
        try
        {
            using RecordStore moved = RecordStore.Open(To, new FixedTime(), Durability.Relaxed);
            Assert.Empty(moved.Verify());
        }
        finally
        {
            Directory.Move(To, _folder.Path);
        }
    }

    [Fact]
    public void BackUp_TraceGone_SaysSoAndCopiesTheRest()
    {
        string gone = _store.Find(_run.ToString())!.TraceFile!;
        System.IO.File.Delete(Path.Combine(_folder.Path, gone));

        Assert.Equal([gone], _store.BackUp(File).Missing);
        Restoring.Run(File, To);
        using RecordStore restored = RecordStore.Open(To, new FixedTime(), Durability.Relaxed);
        Assert.Equal(IntegrityProblemKind.TraceMissing, Assert.Single(restored.Verify()).Kind);
    }

    [Fact]
    public void BackUp_FileThere_LeavesIt()
    {
        System.IO.File.WriteAllText(File, "mine");
        Assert.Contains("there already", Assert.Throws<StoreException>(() => _store.BackUp(File)).Message, StringComparison.Ordinal);
        Assert.Equal("mine", System.IO.File.ReadAllText(File));
    }

    [Fact]
    public void BackUp_NoSuchFolder_SaysSo() =>
        Assert.Contains("no folder", Assert.Throws<StoreException>(() => _store.BackUp(Path.Combine(_elsewhere.Path, "none", "b.zip"))).Message, StringComparison.Ordinal);

    [Fact]
    public void Restore_FolderNotEmpty_LeavesIt()
    {
        _store.BackUp(File);
        Assert.Contains("not empty", Assert.Throws<StoreException>(() => Restoring.Run(File, _folder.Path)).Message, StringComparison.Ordinal);
        Assert.Empty(_store.Verify());
    }

    [Fact]
    public void Restore_EmptyFolder_IsFilled()
    {
        _store.BackUp(File);
        Directory.CreateDirectory(To);
        Restoring.Run(File, To);
        Assert.True(System.IO.File.Exists(Path.Combine(To, RecordStore.DatabaseName)));
    }

    [Theory]
    [InlineData("altered", "SHA-256 differs")]
    [InlineData("longer", "SHA-256 differs")]
    [InlineData("missing", "is not in it")]
    [InlineData("more", "manifest does not name")]
    [InlineData("no manifest", "has no manifest.json")]
    [InlineData("cut", "not a whole backup")]
    public void Restore_BackupNotAsWritten_RestoresNothing(string how, string said)
    {
        _store.BackUp(File);
        Spoil(how);

        Assert.Contains(said, Assert.Throws<StoreException>(() => Restoring.Run(File, To)).Message, StringComparison.Ordinal);
        Assert.Equal(["backup.zip"], Directory.GetFileSystemEntries(_elsewhere.Path).Select(Path.GetFileName));
    }

    [Theory]
    [InlineData("../outside.parquet")]
    [InlineData("/tmp/outside.parquet")]
    [InlineData("traces\\\\outside.parquet")]
    public void Restore_NameThatLeadsOut_RestoresNothing(string name)
    {
        _store.BackUp(File);
        string trace = _store.Find(_run.ToString())!.TraceFile!;
        using (ZipArchive archive = ZipFile.Open(File, ZipArchiveMode.Update))
        {
            byte[] bytes = Bytes(archive.GetEntry(trace)!);
            archive.GetEntry(trace)!.Delete();
            Add(archive, name.Replace("\\\\", "\\", StringComparison.Ordinal), bytes);
            ZipArchiveEntry manifest = archive.GetEntry("manifest.json")!;
            string text = System.Text.Encoding.UTF8.GetString(Bytes(manifest)).Replace(trace, name, StringComparison.Ordinal);
            manifest.Delete();
            Add(archive, "manifest.json", System.Text.Encoding.UTF8.GetBytes(text));
        }

        Assert.Contains("no data folder has", Assert.Throws<StoreException>(() => Restoring.Run(File, To)).Message, StringComparison.Ordinal);
        Assert.Equal(["backup.zip"], Directory.GetFileSystemEntries(_elsewhere.Path).Select(Path.GetFileName));
    }

    public void Dispose()
    {
        _store.Dispose();
        _folder.Dispose();
        _elsewhere.Dispose();
    }

    private void Spoil(string how)
    {
        if (how == "cut")
        {
            System.IO.File.WriteAllBytes(File, System.IO.File.ReadAllBytes(File)[..^100]);
            return;
        }

        using ZipArchive archive = ZipFile.Open(File, ZipArchiveMode.Update);
        ZipArchiveEntry entry = how == "no manifest" ? archive.GetEntry("manifest.json")! : archive.Entries.First(e => e.FullName.StartsWith("traces/", StringComparison.Ordinal));
        byte[] bytes = Bytes(entry);
        if (how != "more")
        {
            entry.Delete();
        }

        switch (how)
        {
            case "altered":
                bytes[^1] ^= 1;
                Add(archive, entry.FullName, bytes);
                break;
            case "longer":
                Add(archive, entry.FullName, [.. bytes, 0]);
                break;
            case "more":
                Add(archive, "traces/one-more.parquet", bytes);
                break;
        }
    }

    private static byte[] Bytes(ZipArchiveEntry entry)
    {
        using MemoryStream bytes = new();
        using Stream stream = entry.Open();
        stream.CopyTo(bytes);
        return bytes.ToArray();
    }

    private static void Add(ZipArchive archive, string name, byte[] bytes)
    {
        using Stream stream = archive.CreateEntry(name).Open();
        stream.Write(bytes);
    }
}
