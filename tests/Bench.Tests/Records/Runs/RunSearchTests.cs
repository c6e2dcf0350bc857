using Bench.Model.Entries;
using Bench.Model.Judging;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Records.Database;
using Bench.Records.Runs;
using Dapper;

namespace Bench.Tests.Records.Runs;

public sealed class RunSearchTests : IDisposable
{
    private readonly DataFolder _folder = new();

    [Fact]
    public void List_BySerialPrefix_TakesThoseThatBeginSoAndNoOthers()
    {
        using RecordStore store = Store("ND4-10", "ND4-101", "ND4-1", "ND4-2", "nd4-10");
        Assert.Equal(["ND4-101", "ND4-10"], store.List(new RunFilter { SerialPrefix = "ND4-10" }).Select(r => r.Serial));
        Assert.Empty(store.List(new RunFilter { SerialPrefix = "%" }));
        Assert.Equal(5, store.List(new RunFilter { SerialPrefix = "" }).Count);
    }

    [Fact]
    public void List_BySymptomClaimAndCause_TakesWhatTheRecordsSay()
    {
        using RecordStore store = Store("ND4-1", "ND4-2");
        using IRunJournal open = store.Begin(SampleRuns.Start(9, "ND4-9"));
        Assert.Equal(3, store.List(new RunFilter { Symptom = Symptom.Intermittent }).Count);
        Assert.Empty(store.List(new RunFilter { Symptom = Symptom.Constant }));
        Assert.Equal(["ND4-2", "ND4-1"], store.List(new RunFilter { LikeliestCause = "none", Claim = ClaimOutcome.NotReproduced }).Select(r => r.Serial));
        Assert.Empty(store.List(new RunFilter { Claim = ClaimOutcome.Confirmed }));
        Assert.Equal("none", store.List(new RunFilter { Serial = "ND4-1" })[0].LikeliestCause);
    }

    [Fact]
    public void List_WithMostAndSkip_IsThatPartOfTheWholeAndCountIsOfTheWhole()
    {
        using RecordStore store = Store("A", "B", "C", "D");
        RunFilter part = new() { Most = 2, Skip = 1 };
        Assert.Equal(["C", "B"], store.List(part).Select(r => r.Serial));
        Assert.Equal(4, store.Count(part));
        Assert.Equal(4, store.Count());
        Assert.Empty(store.List(new RunFilter { Skip = 4 }));
    }

    [Fact]
    public void List_OfOpenOrSealedRuns_LeavesTheOthersOut()
    {
        using RecordStore store = Store("A");
        using IRunJournal open = store.Begin(SampleRuns.Start(9, "B"));
        Assert.Equal("B", Assert.Single(store.List(new RunFilter { Open = true })).Serial);
        Assert.Equal("A", Assert.Single(store.List(new RunFilter { Open = false })).Serial);
        Assert.Equal((2, 1), (store.Count(), store.Count(new RunFilter { Open = true })));
    }

    /// <summary>A record has 100 kB: a search that touches records takes minutes over an archive.</summary>
    [Fact]
    public void List_OfEverySearch_IsAnsweredFromAnIndexWithoutTheRecords()
    {
        using RecordStore store = Store("A");
        RunFilter[] filters =
        [
            new(), new() { Family = "f" }, new() { Outcome = RunOutcome.Held }, new() { Disposition = Disposition.Scrap }, new() { Claim = ClaimOutcome.Confirmed },
            new() { Symptom = Symptom.Constant }, new() { LikeliestCause = "c" }, new() { From = FixedTime.Now, Before = FixedTime.Now },
        ];
        using StoreDatabase database = StoreDatabase.Open(_folder.Database, Durability.Relaxed);
        Assert.All(filters, filter =>
        {
            (string sql, DynamicParameters values) = RunSearch.List(filter with { Open = false });
            string plan = string.Join('\n', database.Read("look", c => c.Query("EXPLAIN QUERY PLAN " + sql, values).Select(r => (string)r.detail).ToList()));
            Assert.Contains("USING COVERING INDEX run_list", plan, StringComparison.Ordinal);
        });
    }

    [Fact]
    public void List_OfACorrectedRun_FindsItByBothSerialsAndShowsTheRightOne()
    {
        using RecordStore store = Store("ND4-1", "ND4-2");
        Guid run = store.List(new RunFilter { Serial = "ND4-1" })[0].Id;
        store.Correct(store.Find(run.ToString())!, CorrectedFact.Serial, "ZS3-9", "label misread", "technician");
        Assert.Equal(["ZS3-9"], store.List(new RunFilter { SerialPrefix = "ZS3" }).Select(r => r.Serial));
        Assert.Equal(["ZS3-9"], store.List(new RunFilter { Serial = "ND4-1" }).Select(r => r.Serial));
        Assert.Equal(1, store.Count(new RunFilter { Serial = "ZS3-9" }));
    }

    public void Dispose() => _folder.Dispose();

    private RecordStore Store(params string[] serials)
    {
        RecordStore store = _folder.Open();
        for (int i = 0; i < serials.Length; i++)
        {
            RunWriting.Seal(store, SampleRuns.Start(i + 1, serials[i]));
        }

        return store;
    }
}
