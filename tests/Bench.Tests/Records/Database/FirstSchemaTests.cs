using Bench.Model.Entries;
using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Records.Runs;
using Bench.Tests.Model;

namespace Bench.Tests.Records.Database;

/// <summary>A data folder written by the program of the first schema (fixtures/records/v1) opens in every later one.</summary>
public sealed class FirstSchemaTests : IDisposable
{
    private readonly DataFolder _folder = new();

    public FirstSchemaTests()
    {
        foreach (string file in Directory.GetFiles(Fixture, "*", SearchOption.AllDirectories))
        {
            string to = Path.Combine(_folder.Path, Path.GetRelativePath(Fixture, file));
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.Copy(file, to);
        }
    }

    private static string Fixture => Path.Combine(RepositoryFiles.Root, "fixtures", "records", "v1");

    [Fact]
    public void Open_FirstSchema_VerifiesWithAllItHeld()
    {
        using RecordStore store = _folder.Open();

        Assert.Empty(store.Verify());
        IReadOnlyList<RunSummary> runs = store.List();
        Assert.Equal(["ND4-10188", "ND4-10333", "ZS3-20108"], runs.Select(r => r.Serial).Order(StringComparer.Ordinal));
        Assert.All(runs, r => Assert.Equal(store.Find(r.Id.ToString())!.Record.Judgement?.Causes[0].Id, r.LikeliestCause));
        Assert.All(runs, r => Assert.Equal(store.Find(r.Id.ToString())!.Record.Start.Return.Symptom, r.Symptom));
        Assert.All(runs, r => Assert.NotEqual(0, store.LoadTrace(store.Find(r.Id.ToString())!).Count));
    }

    [Fact]
    public void Open_FirstSchema_KeepsItsLaterJudgementAsAnEntry()
    {
        using RecordStore store = _folder.Open();

        SealedRun run = store.List().Select(r => store.Find(r.Id.ToString())!).Single(r => r.Entries.Count > 0);
        LaterJudgement later = Assert.IsType<LaterJudgement>(Assert.Single(run.Entries).Entry);
        Assert.Equal(("1.0.0", Disposition.Repairable), (later.ProfileVersion, later.Judgement.Disposition!.Value));
    }

    [Fact]
    public void Open_FirstSchema_QueuesAllForTheHub()
    {
        using RecordStore store = _folder.Open();

        Assert.Equal(4, store.Outbox.Count);
    }

    [Fact]
    public void Open_FirstSchema_LaterEntriesGoOnCounting()
    {
        using RecordStore store = _folder.Open();

        Assert.Equal(2, store.AddNote(store.List()[0].Id, "Seen again.", "R. Halloway").Sequence);
        Assert.Empty(store.Verify());
    }

    [Fact]
    public void Open_FirstSchemaWithAJudgementGone_StillMissesIt()
    {
        _folder.Tamper("DELETE FROM judgement");
        using RecordStore store = _folder.Open();

        Assert.Equal("entry 1 is gone", Assert.Single(store.Verify()).Text);
    }

    public void Dispose() => _folder.Dispose();
}
