using Bench.Model.Instruments;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Records;
using Bench.Records.Journals;
using Microsoft.Data.Sqlite;

namespace Bench.Tests.Records.Journals;

public sealed class RunJournalTests : IDisposable
{
    private readonly DataFolder _folder = new();
    private readonly RecordStore _store;

    public RunJournalTests() => _store = _folder.Open();

    [Theory]
    [InlineData(255, 0)]
    [InlineData(256, 1)]
    [InlineData(511, 1)]
    [InlineData(512, 2)]
    public void Write_SamplesAtOneInstant_AreStoredByTheChunk(int samples, int chunks)
    {
        using IRunJournal journal = _store.Begin(SampleRuns.Start());
        journal.Write(0, [.. Enumerable.Repeat(At(1.0), samples)]);
        Assert.Equal(chunks, _folder.Count("journal_chunk WHERE count = 256"));
    }

    [Theory]
    [InlineData(1.199, 0)]
    [InlineData(1.2001, 1)]
    public void Write_SampleThatMakesTheOldestTooOld_StoresThem(double time, int chunks)
    {
        using IRunJournal journal = _store.Begin(SampleRuns.Start());
        journal.Write(0, [At(1.0), At(time)]);
        Assert.Equal(chunks, _folder.Count("journal_chunk"));
    }

    [Theory]
    [InlineData(RunEventKind.OutputCommand)]
    [InlineData(RunEventKind.Note)]
    public void Write_Event_StoresTheSamplesBeforeItToo(RunEventKind kind)
    {
        using IRunJournal journal = _store.Begin(SampleRuns.Start());
        journal.Write(0, [At(1.0)]);
        journal.Write(new RunEvent(1.0, kind, "up on"));
        Assert.Equal(1, _folder.Count("journal_chunk"));
        Assert.Equal(1, _folder.Count("journal_event"));
    }

    [Fact]
    public void Write_Move_IsStoredAtOnce()
    {
        using IRunJournal journal = _store.Begin(SampleRuns.Start());
        journal.Write(SampleRuns.Move(1));
        Assert.Equal(1, _folder.Count("journal_move"));
    }

    [Fact]
    public void Write_SamplesOutOfOrder_AreRefused()
    {
        using IRunJournal journal = _store.Begin(SampleRuns.Start());
        journal.Write(0, [At(1.0)]);
        Assert.Throws<ArgumentOutOfRangeException>(() => journal.Write(0, [At(1.0)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => journal.Write(2, [At(1.0)]));
        journal.Write(1, [At(1.0)]);
    }

    [Fact]
    public void Write_AfterSeal_IsRefused()
    {
        RunStart start = SampleRuns.Start();
        Trace trace = new();
        using IRunJournal journal = _store.Begin(start);
        journal.Seal(SampleRuns.Record(start, trace), trace);
        Assert.Throws<ObjectDisposedException>(() => journal.Write(SampleRuns.Events[0]));
        Assert.Throws<ObjectDisposedException>(() => journal.Write(0, [At(1.0)]));
        Assert.Throws<ObjectDisposedException>(() => journal.Seal(SampleRuns.Record(start, trace), trace));
    }

    [Fact]
    public void Seal_RecordOfAnotherRun_IsRefusedAndTheRunStaysOpen()
    {
        Trace trace = new();
        using IRunJournal journal = _store.Begin(SampleRuns.Start(1));
        Assert.Throws<ArgumentException>(() => journal.Seal(SampleRuns.Record(SampleRuns.Start(2), trace), trace));
        Assert.True(Assert.Single(_store.List()).Open);
    }

    [Fact]
    public void Seal_RecordWithANumberNotFinite_IsRefusedAndTheRunStaysOpen()
    {
        RunStart start = SampleRuns.Start();
        Trace trace = new();
        using IRunJournal journal = _store.Begin(start);
        RunRecord record = SampleRuns.Record(start, trace) with { Events = [new RunEvent(double.NaN, RunEventKind.Note, "")] };
        Assert.Contains("not finite", Assert.Throws<JournalException>(() => journal.Seal(record, trace)).Message, StringComparison.Ordinal);
        Assert.True(Assert.Single(_store.List()).Open);
    }

    [Fact]
    public void Seal_TraceCannotBeWritten_SaysWhereAndCanBeDoneAgain()
    {
        RunStart start = SampleRuns.Start();
        Trace trace = SampleRuns.Trace(10);
        RunRecord record = SampleRuns.Record(start, trace);
        using IRunJournal journal = _store.Begin(start);
        RunWriting.Write(journal, trace, record);
        string inTheWay = Path.Combine(_folder.Path, "traces", $"{start.Id:D}.parquet.part");
        Directory.CreateDirectory(inTheWay);
        JournalException e = Assert.Throws<JournalException>(() => journal.Seal(record, trace));
        Assert.Contains($"cannot write the trace of run {start.Id:D}", e.Message, StringComparison.Ordinal);
        Directory.Delete(inTheWay);
        journal.Seal(record, trace);
        Assert.NotNull(_store.Find(start.Id.ToString()));
        Assert.Empty(_store.Verify());
    }

    [Fact]
    public void Write_StoreLockedByAnotherProcess_SaysSoAndLosesNothing()
    {
        RunStart start = SampleRuns.Start();
        using IRunJournal journal = _store.Begin(start);
        using (SqliteConnection other = new($"Data Source={_folder.Database};Pooling=False"))
        {
            other.Open();
            using SqliteTransaction held = other.BeginTransaction(deferred: false);
            JournalException e = Assert.Throws<JournalException>(() => journal.Write(0, [At(1.0), At(2.0)]));
            Assert.Contains($"'{_folder.Database}' is locked by another process", e.Message, StringComparison.Ordinal);
        }

        journal.Write(2, [At(3.0)]);
        Assert.Equal(1, _folder.Count("journal_chunk WHERE first = 0 AND count = 3"));
    }

    [Fact]
    public async Task Write_SamplesStoredAsideFail_SaysSoAtTheNextWriteAndLosesNothing()
    {
        using DataFolder folder = new();
        using RecordStore store = RecordStore.Open(folder.Path, new FixedTime(), Durability.Full);
        using IRunJournal journal = store.Begin(SampleRuns.Start());
        using (SqliteConnection other = new($"Data Source={folder.Database};Pooling=False"))
        {
            other.Open();
            using SqliteTransaction held = other.BeginTransaction(deferred: false);
            journal.Write(0, [At(1.0), At(2.0)]);
            await ((RunJournal)journal).Storing;
            Assert.Contains("is locked by another process", Assert.Throws<JournalException>(() => journal.Write(2, [At(3.0)])).Message, StringComparison.Ordinal);
        }

        journal.Write(3, [At(4.0)]);
        journal.Write(SampleRuns.Events[0]);
        Assert.Equal(1, folder.Count("journal_chunk WHERE first = 0 AND count = 4"));
    }

    [Fact]
    public void Write_SamplesStoredAside_AreWholeAndInOrder()
    {
        using DataFolder folder = new();
        RunStart start = SampleRuns.Start();
        Trace trace = SampleRuns.Trace(3000);
        using RecordStore store = RecordStore.Open(folder.Path, new FixedTime(), Durability.Full, new Processes(1));
        IRunJournal journal = store.Begin(start);
        RunWriting.Write(journal, trace, SampleRuns.Record(start, trace));
        using RecordStore after = folder.Open(new Processes(2));
        Assert.Equal(3000, Assert.Single(after.RecoverInterrupted()).Samples);
        Assert.Equal(trace.All.ToArray(), after.LoadTrace(after.Find(start.Id.ToString())!).All.ToArray());
    }

    [Fact]
    public void Write_SampleThatIsNone_IsRefused()
    {
        using IRunJournal journal = _store.Begin(SampleRuns.Start());
        Assert.Throws<ArgumentException>(() => journal.Write(0, [At(double.NaN)]));
    }

    [Fact]
    public void Write_EventsFromSeveralThreads_AreAllThere()
    {
        using IRunJournal journal = _store.Begin(SampleRuns.Start());
        Parallel.For(0, 100, i => journal.Write(new RunEvent(i, RunEventKind.Note, "")));
        Assert.Equal(100, _folder.Count("journal_event"));
    }

    [Fact]
    public void Begin_SameRunTwice_IsRefused()
    {
        using IRunJournal journal = _store.Begin(SampleRuns.Start());
        RunStart again = SampleRuns.Start(2) with { Id = _store.List()[0].Id };
        Assert.Contains("holds it already", Assert.Throws<StoreException>(() => _store.Begin(again)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_TwoJournalsOnTwoThreads_BothRunsAreWhole()
    {
        Parallel.For(0, 2, n =>
        {
            for (int i = 0; i < 5; i++)
            {
                RunWriting.Seal(_store, SampleRuns.Start(1 + n + (2 * i)), samples: 2000);
            }
        });
        Assert.Equal(10, _store.List().Count);
        Assert.Empty(_store.Verify());
        Assert.All(_store.List(), run => Assert.Equal(SampleRuns.Trace(2000).All.ToArray(), _store.LoadTrace(_store.Find(run.Id.ToString())!).All.ToArray()));
    }

    private static Sample At(double time) => new(time, DriveState.Up, FeedbackStatus.Ok, 5, double.NaN, double.NaN, IndexState.NotSampled);

    public void Dispose()
    {
        _store.Dispose();
        _folder.Dispose();
    }
}
