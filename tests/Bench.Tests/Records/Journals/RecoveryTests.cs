using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Records;
using Bench.Records.Canonical;
using Bench.Records.Traces;

namespace Bench.Tests.Records.Journals;

public sealed class RecoveryTests : IDisposable
{
    private const int Dead = 100;
    private const int Living = 200;

    private readonly DataFolder _folder = new();
    private readonly RunStart _start = SampleRuns.Start();
    private readonly Trace _trace = SampleRuns.Trace(300);
    private readonly RecordStore _died;
    private readonly IRunJournal _journal;

    /// <summary>A program that dies after 300 samples, three events and three moves: neither journal nor store is disposed.</summary>
    public RecoveryTests()
    {
        _died = _folder.Open(new Processes(Dead));
        _journal = _died.Begin(_start);
        RunWriting.Write(_journal, _trace, SampleRuns.Record(_start, _trace));
    }

    [Fact]
    public void RecoverInterrupted_RunOfADeadProcess_IsSealedAsAborted()
    {
        using RecordStore store = _folder.Open(new Processes(Living));
        RunRecord record = Assert.Single(store.RecoverInterrupted());
        Assert.Equal((RunOutcome.Aborted, AbortReason.HostDied, false), (record.Outcome, record.Abort!.Value, record.OutputsConfirmedOff));
        Assert.Contains("run 'bench safe'", record.AbortText, StringComparison.Ordinal);
        Assert.Contains("by hand", record.AbortText, StringComparison.Ordinal);
        Assert.Equal(SampleRuns.Events, record.Events.SkipLast(1));
        Assert.Contains("2031-03-04 05:06:07 +00:00", record.Events[^1].Text, StringComparison.Ordinal);
        Assert.Equal(3, record.Moves.Count);
        Assert.Null(record.Judgement);
        Assert.Equal(_start.StartedAt + TimeSpan.FromSeconds(_trace[299].TimeS), record.EndedAt);
    }

    [Fact]
    public void RecoverInterrupted_Run_IsInTheChainWithItsTrace()
    {
        using RecordStore store = _folder.Open(new Processes(Living));
        RunRecord record = Assert.Single(store.RecoverInterrupted());
        SealedRun run = store.Find(_start.Id.ToString())!;
        Assert.Equal(CanonicalJson.Write(record), CanonicalJson.Write(run.Record));
        Assert.Equal(_trace.All.ToArray(), store.LoadTrace(run).All.ToArray());
        Assert.Empty(store.Verify());
        Assert.Equal(0, _folder.Count("journal_chunk"));
    }

    [Fact]
    public void RecoverInterrupted_TwoRunsOfOneDeadProcess_AreBothSealedWhole()
    {
        RunStart other = SampleRuns.Start() with { Id = Guid.CreateVersion7() };
        Trace trace = SampleRuns.Trace(100);
        RunWriting.Write(_died.Begin(other), trace, SampleRuns.Record(other, trace));
        using RecordStore store = _folder.Open(new Processes(Living));
        Assert.Equal(new[] { _start.Id, other.Id }.Order(), store.RecoverInterrupted().Select(r => r.Start.Id).Order());
        Assert.Equal(_trace.All.ToArray(), store.LoadTrace(store.Find(_start.Id.ToString())!).All.ToArray());
        Assert.Equal(trace.All.ToArray(), store.LoadTrace(store.Find(other.Id.ToString())!).All.ToArray());
        Assert.Empty(store.Verify());
    }

    [Fact]
    public void RecoverInterrupted_Again_DoesNothing()
    {
        using RecordStore store = _folder.Open(new Processes(Living));
        Assert.Single(store.RecoverInterrupted());
        string hash = store.Find(_start.Id.ToString())!.Hash;
        Assert.Empty(store.RecoverInterrupted());
        using RecordStore other = _folder.Open(new Processes(Living + 1));
        Assert.Empty(other.RecoverInterrupted());
        Assert.Equal(hash, other.Find(_start.Id.ToString())!.Hash);
    }

    [Fact]
    public void RecoverInterrupted_TwoProgramsAtOnce_RecoverEachRunOnce()
    {
        for (int n = 2; n <= 8; n++)
        {
            _died.Begin(SampleRuns.Start(n));
        }

        int[] recovered = new int[2];
        Parallel.For(0, 2, i =>
        {
            using RecordStore store = _folder.Open(new Processes(Living + i, alive: Living + 1 - i));
            recovered[i] = store.RecoverInterrupted().Count;
        });
        Assert.Equal(8, recovered.Sum());
        using RecordStore after = _folder.Open();
        Assert.Empty(after.Verify());
        Assert.All(after.List(), run => Assert.Equal(RunOutcome.Aborted, run.Outcome));
        Assert.Equal(8, after.List().Count);
    }

    [Fact]
    public void RecoverInterrupted_RunOfALivingProcess_IsLeftAlone()
    {
        using RecordStore store = _folder.Open(new Processes(Living, alive: Dead));
        Assert.Empty(store.RecoverInterrupted());
        Assert.True(Assert.Single(store.List()).Open);
        _journal.Seal(SampleRuns.Record(_start, _trace), _trace);
        Assert.Equal(RunOutcome.Judged, Assert.Single(store.List()).Outcome);
    }

    [Fact]
    public void RecoverInterrupted_RunGivenUpByThisProcess_IsSealed()
    {
        _journal.Dispose();
        using RecordStore store = _folder.Open(new Processes(Dead));
        Assert.Single(store.RecoverInterrupted());
    }

    [Fact]
    public void RecoverInterrupted_FolderCopiedMidRun_GivesTheSameRun()
    {
        using DataFolder copy = _folder.Copy();
        using RecordStore store = copy.Open(new Processes(Living));
        Assert.Single(store.RecoverInterrupted());
        Assert.Equal(_trace.All.ToArray(), store.LoadTrace(store.Find(_start.Id.ToString())!).All.ToArray());
    }

    [Fact]
    public void RecoverInterrupted_KilledBetweenTraceFileAndCommit_WritesTheFileAnew()
    {
        // What such a kill leaves: the file under its own name or half written, and the run open.
        string path = Path.Combine(_folder.Path, "traces", $"{_start.Id:D}.parquet");
        File.WriteAllText(path, "whole, but of no sealed run");
        File.WriteAllText(path + ".part", "half");
        using RecordStore store = _folder.Open(new Processes(Living));
        Assert.Single(store.RecoverInterrupted());
        Assert.Equal(300, store.LoadTrace(store.Find(_start.Id.ToString())!).Count);
        Assert.Equal([path], Directory.GetFiles(Path.Combine(_folder.Path, "traces")));
    }

    [Fact]
    public void RecoverInterrupted_JournalLostItsEndAfterTheTraceFileWasWhole_TakesTheFileAndSaysSo()
    {
        WriteTraceFile(SampleRuns.Trace(400));
        using RecordStore store = _folder.Open(new Processes(Living));
        RunRecord record = Assert.Single(store.RecoverInterrupted());
        Assert.Equal(400, record.Samples);
        Assert.Contains(record.Events, e => e.Text.Contains("The journal ends after 300 samples", StringComparison.Ordinal));
        Assert.Equal(SampleRuns.Trace(400).All.ToArray(), store.LoadTrace(store.Find(_start.Id.ToString())!).All.ToArray());
    }

    [Fact]
    public void RecoverInterrupted_TraceFileOfOtherSamples_IsNotTaken()
    {
        Trace other = new();
        for (int i = 0; i < 400; i++)
        {
            other.Add(_trace[0]);
        }

        WriteTraceFile(other);
        using RecordStore store = _folder.Open(new Processes(Living));
        Assert.Equal(300, Assert.Single(store.RecoverInterrupted()).Samples);
    }

    [Fact]
    public void RecoverInterrupted_ChunkMissing_KeepsWhatIsBeforeItAndSaysSo()
    {
        _folder.Tamper("DELETE FROM journal_chunk WHERE first = (SELECT first FROM journal_chunk ORDER BY first LIMIT 1 OFFSET 4)");
        using RecordStore store = _folder.Open(new Processes(Living));
        RunRecord record = Assert.Single(store.RecoverInterrupted());
        Assert.InRange(record.Samples, 4, 299);
        Assert.Contains(record.Events, e => e.Text.Contains($"Samples from number {record.Samples} on could not be read: the next ones are from number", StringComparison.Ordinal));
        Assert.Equal(_trace.Slice(0, record.Samples).ToArray(), store.LoadTrace(store.Find(_start.Id.ToString())!).All.ToArray());
    }

    [Fact]
    public void RecoverInterrupted_SamplesNotYetInAChunk_AreWhatIsLost()
    {
        RunStart start = SampleRuns.Start(2);
        IRunJournal journal = _died.Begin(start);
        journal.Write(0, _trace.Slice(0, 60));
        using RecordStore store = _folder.Open(new Processes(Living));
        store.RecoverInterrupted();
        RunRecord record = store.Find(start.Id.ToString())!.Record;

        // 60 readings at 136/s, stored whenever the newest is 0.2 s (27.2 readings) after the oldest: two chunks of 29.
        Assert.Equal(58, record.Samples);
        Assert.Empty(record.Moves);
    }

    [Fact]
    public void RecoverInterrupted_RunThatNeverGotASample_IsSealedWithoutAFile()
    {
        RunStart start = SampleRuns.Start(2);
        _died.Begin(start);
        using RecordStore store = _folder.Open(new Processes(Living));
        Assert.Equal(2, store.RecoverInterrupted().Count);
        SealedRun run = store.Find(start.Id.ToString())!;
        Assert.Null(run.TraceFile);
        Assert.Equal(start.StartedAt, run.Record.EndedAt);
    }

    [Fact]
    public void Write_AfterAnotherProcessRecoveredTheRun_SaysSo()
    {
        using RecordStore store = _folder.Open(new Processes(Living));
        store.RecoverInterrupted();
        Assert.Contains("another process recovered it", Assert.Throws<JournalException>(() => _journal.Write(SampleRuns.Events[0])).Message, StringComparison.Ordinal);
        Assert.Contains("another process has recovered it", Assert.Throws<JournalException>(() => _journal.Seal(SampleRuns.Record(_start, _trace), _trace)).Message, StringComparison.Ordinal);
        Assert.Empty(store.Verify());
    }

    [Fact]
    public void RecoverInterrupted_JournalDamaged_KeepsWhatCanBeReadAndSaysWhatCannot()
    {
        _folder.Tamper("UPDATE journal_chunk SET data = x'09' WHERE first = 29; UPDATE journal_move SET move = '{' WHERE number = 1");
        using RecordStore store = _folder.Open(new Processes(Living));
        RunRecord record = Assert.Single(store.RecoverInterrupted());
        Assert.Equal(29, record.Samples);
        Assert.Equal(_trace.Slice(0, 29).ToArray(), store.LoadTrace(store.Find(_start.Id.ToString())!).All.ToArray());
        Assert.Contains(record.Events, e => e.Text.StartsWith("Samples from number 29 on could not be read", StringComparison.Ordinal));
        Assert.Contains(record.Events, e => e.Text.StartsWith("A move could not be read", StringComparison.Ordinal));

        // Move 2 needs samples 20 to 29.
        Assert.Contains(record.Events, e => e.Text.StartsWith("Moves 2, 3 were left out", StringComparison.Ordinal));
        Assert.Empty(record.Moves);
    }

    [Fact]
    public void RecoverInterrupted_StartDamaged_SaysWhatToDoAndRecoversTheOthers()
    {
        RunStart other = SampleRuns.Start(2);
        _died.Begin(other);
        _folder.Tamper($"UPDATE open_run SET start = '{{' WHERE id = '{_start.Id:D}'");
        using RecordStore store = _folder.Open(new Processes(Living));
        StoreException e = Assert.Throws<StoreException>(() => store.RecoverInterrupted());
        Assert.Contains($"cannot recover run {_start.Id:D}", e.Message, StringComparison.Ordinal);
        Assert.Contains("check the outputs by hand", e.Message, StringComparison.Ordinal);
        Assert.NotNull(store.Find(other.Id.ToString()));
        Assert.True(store.List()[1].Open);
    }

    private void WriteTraceFile(Trace trace) =>
        File.WriteAllBytes(Path.Combine(_folder.Path, "traces", $"{_start.Id:D}.parquet"), TraceFile.Encode(_start.Id, trace));

    public void Dispose()
    {
        _died.Dispose();
        _folder.Dispose();
    }
}
