using Microsoft.Data.Sqlite;

namespace Bench.Campaigns.Crash.Faults;

/// <summary>Somebody who has the database open and looks at one state of it for long.</summary>
internal sealed class HeldReader : IDisposable
{
    private readonly SqliteConnection _connection;
    private readonly SqliteTransaction _transaction;

    private HeldReader(SqliteConnection connection)
    {
        _connection = connection;
        _connection.Open();
        _transaction = _connection.BeginTransaction(deferred: true);
        using SqliteCommand command = _connection.CreateCommand();
        command.CommandText = "SELECT count(*) FROM run";
        command.ExecuteScalar();
    }

    /// <summary>Begins to look.</summary>
    public static HeldReader Of(string folder) => new(new SqliteConnection($"Data Source={Path.Combine(folder, "bench.db")};Pooling=False"));

    /// <inheritdoc/>
    public void Dispose()
    {
        _transaction.Dispose();
        _connection.Dispose();
    }
}
