using Bench.Records;
using Bench.Records.Owners;
using Microsoft.Data.Sqlite;

namespace Bench.Tests.Records;

/// <summary>A data folder of one test, deleted after it.</summary>
internal sealed class DataFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("bench-records-").FullName;

    public string Database => System.IO.Path.Combine(Path, RecordStore.DatabaseName);

    public RecordStore Open(IProcessTable? processes = null) => RecordStore.Open(Path, new FixedTime(), Durability.Relaxed, processes);

    /// <summary>The folder as a dying program would leave it: copied while the store is open.</summary>
    public DataFolder Copy()
    {
        DataFolder copy = new();
        foreach (string file in Directory.GetFiles(Path, "*", SearchOption.AllDirectories))
        {
            string to = System.IO.Path.Combine(copy.Path, System.IO.Path.GetRelativePath(Path, file));
            Directory.CreateDirectory(System.IO.Path.GetDirectoryName(to)!);
            File.Copy(file, to);
        }

        return copy;
    }

    /// <summary>What somebody with another program could do to the database.</summary>
    public void Tamper(string sql)
    {
        using SqliteConnection connection = new($"Data Source={Database};Pooling=False;Foreign Keys=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    public long Count(string from)
    {
        using SqliteConnection connection = new($"Data Source={Database};Pooling=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = $"SELECT count(*) FROM {from}";
        return (long)command.ExecuteScalar()!;
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
