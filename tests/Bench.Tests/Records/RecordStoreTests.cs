using Bench.Model.Entries;
using Bench.Model.Judging;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Records;
using Bench.Records.Canonical;
using Bench.Records.Runs;

namespace Bench.Tests.Records;

public sealed class RecordStoreTests : IDisposable
{
    private readonly DataFolder _folder = new();

    [Fact]
    public void Seal_Run_ReadsBackByteForByte()
    {
        RunRecord record;
        using (RecordStore store = _folder.Open())
        {
            record = RunWriting.Seal(store, SampleRuns.Start());
        }

        using RecordStore again = _folder.Open();
        SealedRun run = again.Find(record.Start.Id.ToString())!;
        Assert.Equal(CanonicalJson.Write(record), CanonicalJson.Write(run.Record));
        Assert.Equal("", run.PreviousHash);
        Assert.Equal($"traces/{record.Start.Id:D}.parquet", run.TraceFile);
        Assert.Equal(SampleRuns.Trace(500).All.ToArray(), again.LoadTrace(run).All.ToArray());
    }

    [Fact]
    public void Seal_Run_LeavesNoJournalAndNoUnfinishedFile()
    {
        using RecordStore store = _folder.Open();
        RunWriting.Seal(store, SampleRuns.Start());
        Assert.Equal(0, _folder.Count("open_run") + _folder.Count("journal_event") + _folder.Count("journal_move") + _folder.Count("journal_chunk"));
        Assert.Single(Directory.GetFiles(Path.Combine(_folder.Path, "traces")));
    }

    [Fact]
    public void Seal_RunWithoutSamples_HasNoFileAndAnEmptyTrace()
    {
        using RecordStore store = _folder.Open();
        RunRecord record = RunWriting.Seal(store, SampleRuns.Start(), samples: 0);
        SealedRun run = store.Find(record.Start.Id.ToString())!;
        Assert.Null(run.TraceFile);
        Assert.Null(run.TraceSha256);
        Assert.Equal(0, store.LoadTrace(run).Count);
        Assert.Empty(Directory.GetFiles(Path.Combine(_folder.Path, "traces")));
    }

    [Fact]
    public void Seal_SecondRun_FollowsTheFirst()
    {
        using RecordStore store = _folder.Open();
        SealedRun first = store.Find(RunWriting.Seal(store, SampleRuns.Start(1)).Start.Id.ToString())!;
        SealedRun second = store.Find(RunWriting.Seal(store, SampleRuns.Start(2)).Start.Id.ToString())!;
        Assert.Equal(first.Hash, second.PreviousHash);
    }

    [Fact]
    public void Seal_Features_AreTablesForReadersWithSql()
    {
        using RecordStore store = _folder.Open();
        RunRecord record = RunWriting.Seal(store, SampleRuns.Start());
        Assert.Equal(record.Features!.Features.Count, _folder.Count("feature"));
        Assert.Equal(record.Features!.Features.Count(f => f.IsAssessed), _folder.Count("feature WHERE value IS NOT NULL AND unit IS NOT NULL"));
        Assert.Equal(1, _folder.Count("finding WHERE name = 'current.running_a' AND decision = 'conforms' AND severity = 'repair'"));
        Assert.Equal(3, _folder.Count("move WHERE from_port = 'A' AND \"end\" = 'landed' AND drive_off_s > drive_on_s"));
        Assert.Equal(1, _folder.Count("event WHERE number = 2 AND kind = 'output-command' AND time_s = 0.5"));
    }

    [Fact]
    public void List_SealedAndOpenRuns_AreNewestFirst()
    {
        using RecordStore store = _folder.Open();
        RunWriting.Seal(store, SampleRuns.Start(1));
        RunStart open = SampleRuns.Start(2, "ND4-0002");
        using IRunJournal journal = store.Begin(open);
        RunWriting.Seal(store, SampleRuns.Start(3));
        IReadOnlyList<RunSummary> runs = store.List();
        Assert.Equal([SampleRuns.Start(3).StartedAt, open.StartedAt, SampleRuns.Start(1).StartedAt], runs.Select(r => r.StartedAt));
        Assert.Equal(
            new RunSummary(open.Id, open.StartedAt, "ND4-0002", "nutrient-diverter-4", true, true, null, null, null, Symptom.Intermittent, null), runs[1]);
        Assert.Equal((RunOutcome.Judged, Disposition.Reusable, ClaimOutcome.NotReproduced, false), (runs[0].Outcome, runs[0].Disposition, runs[0].Claim, runs[0].Open));
    }

    [Fact]
    public void List_WithFilter_GivesWhatItAsksFor()
    {
        using RecordStore store = _folder.Open();
        RunWriting.Seal(store, SampleRuns.Start(1, "ND4-0001"));
        RunWriting.Seal(store, SampleRuns.Start(2, "ND4-0002"));
        using IRunJournal journal = store.Begin(SampleRuns.Start(3, "ND4-0001"));
        Assert.Equal(2, store.List(new RunFilter { Serial = "ND4-0001" }).Count);
        Assert.Single(store.List(new RunFilter { Serial = "ND4-0001", Outcome = RunOutcome.Judged }));
        Assert.Equal(2, store.List(new RunFilter { Disposition = Disposition.Reusable }).Count);
        Assert.Empty(store.List(new RunFilter { Disposition = Disposition.Scrap }));
        Assert.Single(store.List(new RunFilter { Open = true }));
        Assert.Empty(store.List(new RunFilter { Family = "zone-selector-3" }));
        Assert.Equal(2, store.List(new RunFilter { From = SampleRuns.Start(2).StartedAt }).Count);
        Assert.Single(store.List(new RunFilter { Before = SampleRuns.Start(2).StartedAt }));
        Assert.Equal(SampleRuns.Start(3).StartedAt, Assert.Single(store.List(new RunFilter { Most = 1 })).StartedAt);
    }

    [Fact]
    public void Find_BeginningOfAnId_FindsTheRun()
    {
        using RecordStore store = _folder.Open();
        Guid id = RunWriting.Seal(store, SampleRuns.Start()).Start.Id;
        string text = id.ToString();
        foreach (string prefix in (string[])[text[..4], text[..9], text[..16], text[..24], text.ToUpperInvariant(), text.Replace("-", "", StringComparison.Ordinal), $" {text} "])
        {
            Assert.Equal(id, store.Find(prefix)!.Record.Start.Id);
        }

        Assert.Null(store.Find("ffff"));
    }

    [Fact]
    public void Find_BeginningOfTwoIds_NamesBoth()
    {
        using RecordStore store = _folder.Open();
        Guid[] ids = [RunWriting.Seal(store, SampleRuns.Start(1)).Start.Id, RunWriting.Seal(store, SampleRuns.Start(2)).Start.Id];
        StoreException e = Assert.Throws<StoreException>(() => store.Find(ids[0].ToString()[..4]));
        Assert.StartsWith($"more than one run begins with '{ids[0].ToString()[..4]}': ", e.Message, StringComparison.Ordinal);
        Assert.All(ids, id => Assert.Contains(id.ToString(), e.Message, StringComparison.Ordinal));
        Assert.EndsWith("give more of the id", e.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("-")]
    [InlineData("latest")]
    [InlineData("0190a5b4-0000-7000-8000-0000000000010")]
    public void Find_TextThatIsNoId_SaysWhatAnIdIs(string text)
    {
        using RecordStore store = _folder.Open();
        Assert.Contains("1 to 32 hexadecimal digits", Assert.Throws<StoreException>(() => store.Find(text)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Find_RecordThatCannotBeRead_PointsToVerify()
    {
        using RecordStore store = _folder.Open();
        Guid id = RunWriting.Seal(store, SampleRuns.Start()).Start.Id;
        _folder.Tamper("UPDATE run SET record = replace(record, '\"ring\":{\"counts\":800}', '\"ring\":{\"counts\":1}')");
        Assert.Contains("'bench verify'", Assert.Throws<StoreException>(() => store.Find(id.ToString())).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void AddJudgement_OfASealedRun_IsAnEntryMoreAndLeavesTheRecord()
    {
        using RecordStore store = _folder.Open();
        RunRecord record = RunWriting.Seal(store, SampleRuns.Start());
        Guid id = record.Start.Id;
        store.AddJudgement(id, SampleRuns.Judgement(Disposition.Repairable), "2.0.0", new string('d', 64));
        store.AddJudgement(id, SampleRuns.Judgement(Disposition.Scrap), "2.1.0", new string('e', 64));
        List<LaterJudgement> later = Later(store, id);
        Assert.Equal(["2.0.0", "2.1.0"], later.Select(j => j.ProfileVersion));
        Assert.Equal([Disposition.Repairable, Disposition.Scrap], later.Select(j => j.Judgement.Disposition!.Value));
        Assert.All(later, j => Assert.Equal(FixedTime.Now, j.MadeAt));
        Assert.Equal(CanonicalJson.Write(record), CanonicalJson.Write(store.Find(id.ToString())!.Record));
        Assert.Equal(BenchJson.Word(Disposition.Reusable), BenchJson.Word(Assert.Single(store.List()).Disposition!.Value));
    }

    [Fact]
    public void AddJudgement_OfARunThatIsNotThere_IsRefused()
    {
        using RecordStore store = _folder.Open();
        Guid id = SampleRuns.Start().Id;
        Assert.Contains($"no sealed run {id:D}", Assert.Throws<StoreException>(() => store.AddJudgement(id, SampleRuns.Judgement(Disposition.Scrap), "2", "d")).Message, StringComparison.Ordinal);
        Assert.Empty(store.Entries(id));
    }

    public void Dispose() => _folder.Dispose();

    private static List<LaterJudgement> Later(RecordStore store, Guid id) => store.Entries(id).Select(e => e.Entry).OfType<LaterJudgement>().ToList();
}
