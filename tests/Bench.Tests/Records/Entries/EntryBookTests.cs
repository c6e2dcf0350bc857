using Bench.Model.Entries;
using Bench.Model.Judging;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Records.Canonical;
using Bench.Records.Integrity;

namespace Bench.Tests.Records.Entries;

public sealed class EntryBookTests : IDisposable
{
    private readonly DataFolder _folder = new();
    private readonly RecordStore _store;
    private readonly Guid _run;

    public EntryBookTests()
    {
        _store = _folder.Open();
        _run = RunWriting.Seal(_store, SampleRuns.Start()).Start.Id;
    }

    private SealedRun Run => _store.Find(_run.ToString())!;

    [Fact]
    public void Correct_Serial_HoldsFromThenOnAndLeavesTheRecord()
    {
        string before = CanonicalJson.Write(Run.Record);

        _store.Correct(Run, CorrectedFact.Serial, "ND4-7777", "Typed wrong.", "R. Halloway");

        Assert.Equal("ND4-7777", Run.Return.Serial);
        Assert.Equal(before, CanonicalJson.Write(Run.Record));
        Correction correction = Assert.IsType<Correction>(Assert.Single(Run.Entries).Entry);
        Assert.Equal((Run.Record.Start.Return.Serial, "ND4-7777", FixedTime.Now), (correction.Was, correction.To, correction.MadeAt));
    }

    [Fact]
    public void Correct_SameFactAgain_SaysWhatTheEarlierCorrectionHeld()
    {
        _store.Correct(Run, CorrectedFact.Symptom, "constant", "Asked the field.", "R. Halloway");
        _store.Correct(Run, CorrectedFact.Symptom, "intermittent", "Asked again.", "R. Halloway");

        Assert.Equal(("constant", Symptom.Intermittent), (((Correction)Run.Entries[1].Entry).Was, Run.Return.Symptom));
    }

    [Fact]
    public void SignOff_AfterEntries_CoversRunAndLastEntry()
    {
        SealedEntry last = _store.AddJudgement(_run, SampleRuns.Judgement(Disposition.Scrap), "2.0.0", new string('d', 64));

        SignOff sign = (SignOff)_store.SignOff(_run, "I. Marsh", "warranty analyst", "Claim rejected.").Entry;

        Assert.Equal((Run.Hash, last.Hash), (sign.RunHash, sign.LastEntryHash));
    }

    [Fact]
    public void SignOff_OfAnotherRun_HasNoLastEntry()
    {
        Guid other = RunWriting.Seal(_store, SampleRuns.Start(2)).Start.Id;
        _store.SignOff(_run, "I. Marsh", "warranty analyst", "Seen.");

        Assert.Null(((SignOff)_store.SignOff(other, "I. Marsh", "warranty analyst", "Seen.").Entry).LastEntryHash);
    }

    [Theory]
    [InlineData("UPDATE entry SET run = (SELECT id FROM run WHERE sequence = 2)", IntegrityProblemKind.ColumnAltered)]
    [InlineData("UPDATE entry SET kind = 'sign-off' WHERE kind = 'correction'", IntegrityProblemKind.ColumnAltered)]
    [InlineData("UPDATE entry SET entry = replace(entry, 'Typed wrong.', 'Typed right.')", IntegrityProblemKind.EntryAltered)]
    [InlineData("DELETE FROM entry WHERE kind = 'sign-off'", IntegrityProblemKind.EntryMissing)]
    [InlineData("UPDATE run SET hash = replace(hash, substr(hash, 1, 1), 'x') WHERE sequence = 1", IntegrityProblemKind.SignOffOfOther)]
    public void Verify_EntriesTamperedWith_SaysHow(string sql, IntegrityProblemKind kind)
    {
        RunWriting.Seal(_store, SampleRuns.Start(2));
        _store.Correct(Run, CorrectedFact.Serial, "ND4-7777", "Typed wrong.", "R. Halloway");
        _store.SignOff(_run, "I. Marsh", "warranty analyst", "Seen.");
        Assert.Empty(_store.Verify());

        _folder.Tamper(sql);

        Assert.Contains(kind, _store.Verify().Select(p => p.Kind));
    }

    public void Dispose()
    {
        _store.Dispose();
        _folder.Dispose();
    }
}
