using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Records.Integrity;

namespace Bench.Tests.Records.Integrity;

public sealed class VerificationTests : IDisposable
{
    private readonly DataFolder _folder = new();
    private readonly Guid[] _runs = new Guid[3];

    public VerificationTests()
    {
        using RecordStore store = _folder.Open();
        for (int i = 0; i < _runs.Length; i++)
        {
            _runs[i] = RunWriting.Seal(store, SampleRuns.Start(i + 1), samples: 40).Start.Id;
            store.AddJudgement(_runs[i], SampleRuns.Judgement(Disposition.Scrap), "2.0.0", new string('d', 64));
        }
    }

    [Fact]
    public void Verify_StoreAsSealed_FindsNothing() => Assert.Empty(Verify());

    [Theory]
    [InlineData("UPDATE run SET record = replace(record, '\"outcome\":\"judged\"', '\"outcome\":\"held\"') WHERE sequence = 2", "EntryAltered")]
    [InlineData("UPDATE run SET record = substr(record, 1, 500) || char(unicode(substr(record, 501, 1)) + 1) || substr(record, 502) WHERE sequence = 2", "EntryAltered")]
    [InlineData("UPDATE run SET record = 'no json' WHERE sequence = 2", "EntryAltered")]
    [InlineData("UPDATE run SET hash = replace(hash, substr(hash, 1, 1), 'x') WHERE sequence = 2", "EntryAltered")]
    [InlineData("UPDATE run SET trace_sha256 = 'x' WHERE sequence = 2", "EntryAltered")]
    [InlineData("UPDATE run SET disposition = 'scrap' WHERE sequence = 2", "ColumnAltered")]
    [InlineData("UPDATE run SET serial = 'ND4-9999' WHERE sequence = 2", "ColumnAltered")]
    [InlineData("DELETE FROM run WHERE sequence = 2", "EntryMissing")]
    [InlineData("DELETE FROM run WHERE sequence = 3", "EntryMissing")]
    [InlineData("DELETE FROM run", "EntryMissing")]
    [InlineData("UPDATE run SET sequence = 9 WHERE sequence = 2; UPDATE run SET sequence = 2 WHERE sequence = 3; UPDATE run SET sequence = 3 WHERE sequence = 9", "EntryReordered")]
    [InlineData("UPDATE entry SET entry = replace(entry, 'scrap', 'reusable') WHERE sequence = 2", "EntryAltered")]
    [InlineData("DELETE FROM entry WHERE sequence = 1", "EntryMissing")]
    public void Verify_DatabaseTamperedWith_SaysHow(string sql, string kind)
    {
        _folder.Tamper(sql);
        Assert.Contains(Enum.Parse<IntegrityProblemKind>(kind), Verify().Select(p => p.Kind));
    }

    [Fact]
    public void Verify_RecordAltered_NamesTheRunAndNoOther()
    {
        _folder.Tamper("UPDATE run SET record = replace(record, 'Back to stock.', 'Back to shelf.') WHERE sequence = 2");
        IntegrityProblem problem = Assert.Single(Verify());
        Assert.Equal((IntegrityProblemKind.EntryAltered, (Guid?)_runs[1]), (problem.Kind, problem.Run));
        Assert.Contains("record 2", problem.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_OneByteOfATraceFlipped_NamesTheFile()
    {
        string path = Path.Combine(_folder.Path, "traces", $"{_runs[1]:D}.parquet");
        byte[] bytes = File.ReadAllBytes(path);
        bytes[bytes.Length / 2] ^= 1;
        File.WriteAllBytes(path, bytes);
        IntegrityProblem problem = Assert.Single(Verify());
        Assert.Equal((IntegrityProblemKind.TraceAltered, (Guid?)_runs[1]), (problem.Kind, problem.Run));
        Assert.Contains(path, problem.Text, StringComparison.Ordinal);
        using RecordStore store = _folder.Open();
        Assert.Contains("not what was sealed", Assert.Throws<StoreException>(() => store.LoadTrace(store.Find(_runs[1].ToString())!)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_TraceFileGone_IsMissing()
    {
        File.Delete(Path.Combine(_folder.Path, "traces", $"{_runs[0]:D}.parquet"));
        Assert.Equal(IntegrityProblemKind.TraceMissing, Assert.Single(Verify()).Kind);
        using RecordStore store = _folder.Open();
        Assert.Contains("is gone", Assert.Throws<StoreException>(() => store.LoadTrace(store.Find(_runs[0].ToString())!)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_TraceFileOfNoRun_IsNamedForTheStoreMayHaveLostItsEnd()
    {
        string path = Path.Combine(_folder.Path, "traces", $"{Guid.CreateVersion7():D}.parquet");
        File.WriteAllText(path, "");
        IntegrityProblem problem = Assert.Single(Verify());
        Assert.Equal((IntegrityProblemKind.TraceWithoutRun, (Guid?)null), (problem.Kind, problem.Run));
        Assert.Contains(path, problem.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_TraceFileOfARunThatIsStillOpen_IsAsItMustBe()
    {
        using RecordStore store = _folder.Open();
        RunStart start = SampleRuns.Start(9);
        using IRunJournal journal = store.Begin(start);
        File.WriteAllText(Path.Combine(_folder.Path, "traces", $"{start.Id:D}.parquet"), "");
        Assert.Empty(store.Verify());
    }

    [Fact]
    public void Verify_OneByteOfARecordFlippedOnTheDisk_IsFound()
    {
        byte[] file = File.ReadAllBytes(_folder.Database);
        int at = file.AsSpan().IndexOf("Back to stock."u8);
        Assert.True(at > 0);
        file[at] ^= 1;
        File.WriteAllBytes(_folder.Database, file);
        Assert.NotEmpty(Verify());
    }

    private IReadOnlyList<IntegrityProblem> Verify()
    {
        using RecordStore store = _folder.Open();
        return store.Verify();
    }

    public void Dispose() => _folder.Dispose();
}
