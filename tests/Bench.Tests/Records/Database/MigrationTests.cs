using Bench.Records;
using Bench.Records.Database;
using Dapper;

namespace Bench.Tests.Records.Database;

public sealed class MigrationTests : IDisposable
{
    private const string Row = "INSERT INTO open_run (id, started_at, serial, family, simulated, start) VALUES ('a', '', 'kept', '', 0, '')";

    private static readonly IReadOnlyList<string> Later = [.. Schema.Steps, "ALTER TABLE open_run ADD COLUMN note TEXT; UPDATE open_run SET note = 'new';"];

    private readonly DataFolder _folder = new();

    private string CopyOfBefore => $"{_folder.Database}.v{Schema.Version}";

    [Fact]
    public void Open_ByALaterProgram_AddsItsStepAndKeepsWhatWasThere()
    {
        Fill();

        using StoreDatabase later = StoreDatabase.Open(_folder.Database, Durability.Relaxed, Later);

        Assert.Equal(("kept", "new"), later.Read("look", c => c.QuerySingle<(string, string)>("SELECT serial, note FROM open_run")));
        Assert.Equal(Later.Count, later.Read("look", c => c.ExecuteScalar<int>("PRAGMA user_version")));
    }

    [Fact]
    public void Open_ByALaterProgram_LeavesACopyThatThisOneOpens()
    {
        Fill();
        StoreDatabase.Open(_folder.Database, Durability.Relaxed, Later).Dispose();

        using StoreDatabase copy = StoreDatabase.Open(CopyOfBefore, Durability.Relaxed);

        Assert.Equal("kept", copy.Read("look", c => c.ExecuteScalar<string>("SELECT serial FROM open_run")));
        Assert.False(File.Exists(CopyOfBefore + ".part"));
    }

    [Fact]
    public void Open_StepThatFails_LeavesTheStoreAsItWas()
    {
        Fill();

        StoreException e = Assert.Throws<StoreException>(() => StoreDatabase.Open(_folder.Database, Durability.Relaxed, [.. Later, "INSERT INTO nowhere VALUES (1)"]));

        Assert.Contains("cannot open the store", e.Message, StringComparison.Ordinal);
        using StoreDatabase same = StoreDatabase.Open(_folder.Database, Durability.Relaxed);
        Assert.Equal(0, same.Read("look", c => c.ExecuteScalar<int>("SELECT count(*) FROM pragma_table_info('open_run') WHERE name = 'note'")));
        Assert.Equal(Schema.Version, same.Read("look", c => c.ExecuteScalar<int>("PRAGMA user_version")));
    }

    [Fact]
    public void Open_NewStore_HasNothingToCopy()
    {
        StoreDatabase.Open(_folder.Database, Durability.Relaxed, Later).Dispose();

        Assert.Empty(Directory.GetFiles(_folder.Path, "*.v*"));
    }

    public void Dispose() => _folder.Dispose();

    private void Fill()
    {
        using StoreDatabase store = StoreDatabase.Open(_folder.Database, Durability.Relaxed);
        store.Write("fill", c => c.Execute(Row));
    }
}
