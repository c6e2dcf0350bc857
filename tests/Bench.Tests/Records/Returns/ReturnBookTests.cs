using Bench.Model.Entries;
using Bench.Model.Returns;
using Bench.Records;

namespace Bench.Tests.Records.Returns;

public sealed class ReturnBookTests : IDisposable
{
    private readonly DataFolder _folder = new();
    private readonly RecordStore _store;

    public ReturnBookTests() => _store = _folder.Open();

    [Fact]
    public void TakeIn_Return_IsFoundByItsNumber()
    {
        SealedEntry entry = TakeIn("R-1", "ND4-0001");

        SealedEntry found = _store.FindReturn("R-1")!;
        ReturnEntry taken = Assert.IsType<ReturnEntry>(found.Entry);
        Assert.Equal((entry.Hash, "ND4-0001", FixedTime.Now), (found.Hash, taken.Return.Serial, taken.MadeAt));
        Assert.Null(_store.FindReturn("R-2"));
        Assert.Empty(_store.Verify());
    }

    [Fact]
    public void TakeIn_SameNumberAgain_TakesThePlaceAndKeepsTheFirstInTheChain()
    {
        TakeIn("R-1", "ND4-0001");
        TakeIn("R-1", "ND4-0001", "Drips.");

        Assert.Equal("Drips.", ((ReturnEntry)_store.FindReturn("R-1")!.Entry).Return.FieldNote);
        Assert.Single(_store.Returns());
        Assert.Equal(2, _folder.Count("entry"));
    }

    [Fact]
    public void TakeIn_NumberOfAnotherUnit_IsRefusedAndNothingIsAdded()
    {
        TakeIn("R-1", "ND4-0001");

        StoreException refused = Assert.Throws<StoreException>(() => TakeIn("R-1", "ND4-0002"));
        Assert.Contains("R-1 is that of unit ND4-0001", refused.Message, StringComparison.Ordinal);
        Assert.Equal(1, _folder.Count("entry"));
    }

    [Fact]
    public void TakeIn_WithoutNumber_IsRefused() => Assert.Throws<StoreException>(() => TakeIn(null, "ND4-0001"));

    [Fact]
    public void Returns_OfAUnit_AreItsOwnNewestFirst()
    {
        TakeIn("R-1", "ND4-0001");
        TakeIn("R-2", "ND4-0002");
        TakeIn("R-3", "ND4-0001");

        Assert.Equal(["R-3", "R-1"], Numbers(_store.Returns("ND4-0001")));
        Assert.Equal(["R-3", "R-2", "R-1"], Numbers(_store.Returns()));
        Assert.Empty(_store.Returns("ND4-0009"));
    }

    [Fact]
    public void EarlierVisits_UnitTestedBefore_AreItsSealedRunsNewestFirstWithWholeDays()
    {
        Guid first = RunWriting.Seal(_store, SampleRuns.Start()).Start.Id;
        Guid second = RunWriting.Seal(_store, SampleRuns.Start(2)).Start.Id;
        RunWriting.Seal(_store, SampleRuns.Start(3, "ND4-0009"));

        DateTimeOffset back = SampleRuns.Start(2).StartedAt.AddDays(40);
        Assert.Equal([(second, 40), (first, 40)], _store.EarlierVisits("ND4-0001", back).Select(v => (v.Run.Id, v.DaysBefore)));
        Assert.Empty(_store.EarlierVisits("ND4-0002", back));
    }

    public void Dispose()
    {
        _store.Dispose();
        _folder.Dispose();
    }

    private static IEnumerable<string?> Numbers(IEnumerable<SealedEntry> returns) => returns.Select(r => ((ReturnEntry)r.Entry).Return.ReturnNumber);

    private SealedEntry TakeIn(string? number, string serial, string? note = null) => _store.TakeIn(
        new UnitReturn { Serial = serial, Symptom = Symptom.Constant, ReturnNumber = number, FieldNote = note }, SampleRuns.Start().Profile);
}
