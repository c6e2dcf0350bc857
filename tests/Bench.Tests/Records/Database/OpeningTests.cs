using Bench.Records;
using Bench.Records.Database;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Tests.Records.Database;

public sealed class OpeningTests : IDisposable
{
    private readonly DataFolder _folder = new();

    [Fact]
    public void Open_FolderThatIsMissing_IsMade()
    {
        string folder = Path.Combine(_folder.Path, "a", "b");
        using RecordStore store = RecordStore.Open(folder, new FixedTime());
        Assert.Equal(folder, store.Folder);
        Assert.True(File.Exists(Path.Combine(folder, "bench.db")));
        Assert.True(Directory.Exists(Path.Combine(folder, "traces")));
    }

    [Fact]
    public void Open_NewStore_HasVersionMarkAndWriteAheadLog()
    {
        using RecordStore store = _folder.Open();
        Assert.Equal((long)Schema.Version, Pragma("user_version"));
        Assert.Equal(0x424E4348L, Pragma("application_id"));
        Assert.Equal("wal", Pragma("journal_mode"));
    }

    // sqlite.org, "PRAGMA synchronous": NORMAL is 1, FULL is 2 (from memory).
    [Theory]
    [InlineData(Durability.Full, 2)]
    [InlineData(Durability.Relaxed, 1)]
    public void Open_Durability_IsThatOfTheConnectionThatWrites(Durability durability, int synchronous)
    {
        using StoreDatabase database = StoreDatabase.Open(_folder.Database, durability);
        Assert.Equal(synchronous, database.Write("look", c => c.ExecuteScalar<int>("PRAGMA synchronous")));
        Assert.Equal(1, database.Write("look", c => c.ExecuteScalar<int>("PRAGMA foreign_keys")));
        Assert.Equal(0, database.Write("look", c => c.ExecuteScalar<int>("PRAGMA wal_autocheckpoint")));
    }

    [Fact]
    public void Write_WorkThatFails_LeavesNothing()
    {
        using StoreDatabase database = StoreDatabase.Open(_folder.Database, Durability.Relaxed);
        Assert.Throws<StoreException>(() => database.Write("try", c =>
        {
            c.Execute("INSERT INTO open_run (id, started_at, serial, family, simulated, start) VALUES ('a', '', '', '', 0, '')");
            c.Execute("INSERT INTO journal_move (run, number, move) VALUES ('nobody', 1, '')");
        }));
        Assert.Equal(0, _folder.Count("open_run"));
    }

    [Fact]
    public void Open_FileInTheFoldersPlace_SaysSo()
    {
        string path = Path.Combine(_folder.Path, "file");
        File.WriteAllText(path, "");
        StoreException e = Assert.Throws<StoreException>(() => RecordStore.Open(path, new FixedTime()));
        Assert.StartsWith("cannot open the data folder: ", e.Message, StringComparison.Ordinal);
        Assert.Contains(path, e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_FolderInTheDatabasesPlace_SaysSo()
    {
        Directory.CreateDirectory(_folder.Database);
        StoreException e = Assert.Throws<StoreException>(() => _folder.Open());
        Assert.Contains($"'{_folder.Database}' cannot be opened", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_FileThatIsNoDatabase_IsRefusedAndLeftAsItWas()
    {
        byte[] bytes = [.. Enumerable.Repeat((byte)'x', 5000)];
        File.WriteAllBytes(_folder.Database, bytes);
        StoreException e = Assert.Throws<StoreException>(() => _folder.Open());
        Assert.Equal($"cannot open the store: '{_folder.Database}' is not a database; move it away, or choose another data folder", e.Message);
        Assert.Equal(bytes, File.ReadAllBytes(_folder.Database));
    }

    [Fact]
    public void Open_DatabaseOfAnotherProgram_IsRefused()
    {
        _folder.Tamper("CREATE TABLE recipe (id INTEGER)");
        Assert.Contains("is the database of another program", Assert.Throws<StoreException>(() => _folder.Open()).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_NewerSchema_IsRefused()
    {
        _folder.Open().Dispose();
        _folder.Tamper("PRAGMA user_version = 7");
        Assert.Equal(
            $"cannot open the store: '{_folder.Database}' has schema 7, and this program knows schemas up to {Schema.Version}; use the newer program that wrote it, or choose another data folder",
            Assert.Throws<StoreException>(() => _folder.Open()).Message);
    }

    [Fact]
    public void Open_TwiceAtOnce_BothWork()
    {
        using RecordStore one = _folder.Open();
        using RecordStore other = _folder.Open();
        Guid id = RunWriting.Seal(one, SampleRuns.Start(1)).Start.Id;
        RunWriting.Seal(other, SampleRuns.Start(2));
        Assert.NotNull(other.Find(id.ToString()));
        Assert.Empty(one.Verify());
    }

    private object Pragma(string name)
    {
        using SqliteConnection connection = new($"Data Source={_folder.Database};Pooling=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = $"PRAGMA {name}";
        return command.ExecuteScalar()!;
    }

    public void Dispose() => _folder.Dispose();
}
