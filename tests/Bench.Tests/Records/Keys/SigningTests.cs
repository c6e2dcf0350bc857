using Bench.Records;
using Bench.Records.Integrity;
using Bench.Records.Keys;

namespace Bench.Tests.Records.Keys;

public sealed class SigningTests : IDisposable
{
    private readonly DataFolder _folder = new();
    private readonly DataFolder _keys = new();
    private readonly BenchKey _key;

    public SigningTests() => _key = BenchKey.Make(Path.Combine(_keys.Path, "key.pem"));

    [Fact]
    public void Seal_WithAKey_SignsRunAndIntroducesTheKeyOnce()
    {
        using RecordStore store = Open(_key);
        Guid first = RunWriting.Seal(store, SampleRuns.Start()).Start.Id;
        RunWriting.Seal(store, SampleRuns.Start(2));

        Assert.Equal(_key.Fingerprint, store.Find(first.ToString())!.Signature!.Key);
        Assert.Empty(store.Verify([_key.Fingerprint]));
        StoreContents contents = store.Contents();
        Assert.Equal((2L, 1L, 0L), (contents.Runs, contents.Entries, contents.Unsigned));
        Assert.Equal((_key.Fingerprint, 3L), (contents.Keys.Single().Fingerprint, contents.Keys.Single().Signed));
    }

    [Fact]
    public void Seal_WithoutAKey_IsGoodAndCountedAsUnsigned()
    {
        using RecordStore store = Open(null);
        RunWriting.Seal(store, SampleRuns.Start());

        Assert.Empty(store.Verify());
        Assert.Equal(1, store.Contents().Unsigned);
        Assert.Equal([IntegrityProblemKind.SignatureMissing], store.Verify([_key.Fingerprint]).Select(p => p.Kind));
    }

    [Fact]
    public void Open_WithAnotherKey_IntroducesItByAnEntry()
    {
        using BenchKey second = BenchKey.Make(Path.Combine(_keys.Path, "second.pem"));
        Guid run;
        using (RecordStore store = Open(_key))
        {
            run = RunWriting.Seal(store, SampleRuns.Start()).Start.Id;
        }

        using RecordStore later = Open(second);
        later.AddNote(run, "Seen.", "R. Halloway");

        Assert.Equal([_key.Fingerprint, second.Fingerprint], later.Contents().Keys.Select(k => k.Fingerprint));
        Assert.Empty(later.Verify([_key.Fingerprint, second.Fingerprint]));
        Assert.All(later.Verify([_key.Fingerprint]), p => Assert.Equal(IntegrityProblemKind.SignatureMissing, p.Kind));
        Assert.NotEmpty(later.Verify([_key.Fingerprint]));
    }

    [Theory]
    [InlineData("UPDATE signature SET signature = 'AAAA' WHERE hash = (SELECT hash FROM run)", IntegrityProblemKind.SignatureBad)]
    [InlineData("UPDATE signature SET signature = (SELECT signature FROM signature WHERE hash = (SELECT hash FROM entry WHERE kind = 'key')) WHERE hash = (SELECT hash FROM run)", IntegrityProblemKind.SignatureBad)]
    [InlineData("UPDATE signature SET key = 'other' WHERE hash = (SELECT hash FROM run)", IntegrityProblemKind.SignatureBad)]
    [InlineData("DELETE FROM signature WHERE hash = (SELECT hash FROM entry WHERE kind = 'key')", IntegrityProblemKind.SignatureBad)]
    [InlineData("UPDATE entry SET entry = replace(entry, 'PUBLIC', 'NO')", IntegrityProblemKind.SignatureBad)]
    [InlineData("UPDATE signature SET hash = 'f' WHERE hash = (SELECT hash FROM run)", IntegrityProblemKind.SignatureStray)]
    public void Verify_SignatureTamperedWith_SaysHow(string sql, IntegrityProblemKind kind)
    {
        using RecordStore store = Open(_key);
        RunWriting.Seal(store, SampleRuns.Start());
        Assert.Empty(store.Verify());

        _folder.Tamper(sql);

        Assert.Contains(kind, store.Verify().Select(p => p.Kind));
    }

    [Fact]
    public void Verify_SignatureTakenAway_IsFoundByWhoTrustsTheKey()
    {
        using RecordStore store = Open(_key);
        RunWriting.Seal(store, SampleRuns.Start());
        RunWriting.Seal(store, SampleRuns.Start(2));

        _folder.Tamper("DELETE FROM signature WHERE hash = (SELECT hash FROM run WHERE sequence = 2)");

        Assert.Empty(store.Verify());
        Assert.Equal("run 2 is not signed, though others before it are", Assert.Single(store.Verify([_key.Fingerprint])).Text);
    }

    [Fact]
    public void Entries_OfAKey_AreTheBenchsAndNoRuns()
    {
        using RecordStore store = Open(_key);
        Guid run = RunWriting.Seal(store, SampleRuns.Start()).Start.Id;

        Assert.Empty(store.Entries(run));
        Assert.Equal(1, _folder.Count("bench_key"));
    }

    public void Dispose()
    {
        _key.Dispose();
        _folder.Dispose();
        _keys.Dispose();
    }

    private RecordStore Open(BenchKey? key) => RecordStore.Open(_folder.Path, new FixedTime(), Durability.Relaxed, key: key);
}
