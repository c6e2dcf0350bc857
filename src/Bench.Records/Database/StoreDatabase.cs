using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Records.Database;

/// <summary>
/// bench.db: one connection that writes and one that reads, each behind its own lock, so that threads of this process
/// queue in order instead of polling for SQLite's lock, and no long read keeps a run's journal waiting (WAL).
/// </summary>
internal sealed class StoreDatabase : IDisposable
{
    /// <summary>
    /// How long SQLite waits for another process's write. The driver then tries once more within its own second. A run
    /// waits here with its motor perhaps on; other processes' writes take milliseconds.
    /// </summary>
    private const int BusyTimeoutMs = 250;

    private readonly Lock _writing = new();
    private readonly Lock _reading = new();
    private readonly SqliteConnection? _writer;
    private readonly SqliteConnection _reader;

    private StoreDatabase(string path, SqliteConnection? writer, SqliteConnection reader)
    {
        Path = path;
        _writer = writer;
        _reader = reader;
    }

    /// <summary>The file.</summary>
    public string Path { get; }

    /// <summary>Opens the file, makes it when it is missing, and brings its schema up to date.</summary>
    /// <exception cref="StoreException">It cannot be opened, is not ours, or is newer than this program.</exception>
    public static StoreDatabase Open(string path, Durability durability) => Open(path, durability, Schema.Steps);

    /// <summary>
    /// Opens a file that may not be written. Its write-ahead log holds what was written last: where another program has
    /// the store open, the log is read along; where nobody has, there is none (SQLite moves it into the file when the last
    /// one closes), and the file is read as one that nobody changes (https://www.sqlite.org/wal.html, "Read-Only Databases").
    /// </summary>
    /// <exception cref="StoreException">It cannot be opened, is not ours, or its schema is another than this program's.</exception>
    public static StoreDatabase OpenToRead(string path)
    {
        FileInfo log = new(path + "-wal");
        bool isIndexed = File.Exists(path + "-shm");
        if (log is { Exists: true, Length: > 0 } && !isIndexed)
        {
            throw new StoreException(
                $"cannot open the store: '{log.FullName}' holds what a program that ended early wrote last, and in a read-only folder it can't be joined to '{path}'; "
                + "copy the data folder to where it may be written and read the copy");
        }

        SqliteConnection? reader = null;
        try
        {
            string source = isIndexed ? path : new Uri(path).AbsoluteUri + "?immutable=1";
            reader = new(new SqliteConnectionStringBuilder { DataSource = source, Mode = SqliteOpenMode.ReadOnly, Pooling = false, DefaultTimeout = 1 }.ConnectionString);
            reader.Open();
            Migration.Demand(reader, path, Schema.Steps);
            return new StoreDatabase(path, null, reader);
        }
        catch (Exception e)
        {
            reader?.Dispose();
            if (StoreFault.IsExpected(e))
            {
                throw StoreFault.Of(e, "open the store", path);
            }

            throw;
        }
    }

    /// <summary>The same with other steps than this program's, as a later one has them.</summary>
    internal static StoreDatabase Open(string path, Durability durability, IReadOnlyList<string> steps)
    {
        SqliteConnection? writer = null;
        SqliteConnection? reader = null;
        try
        {
            writer = Connect(path, durability);
            Migration.Run(writer, path, steps);
            reader = Connect(path, durability);
            return new StoreDatabase(path, writer, reader);
        }
        catch (Exception e)
        {
            reader?.Dispose();
            writer?.Dispose();
            if (StoreFault.IsExpected(e))
            {
                throw StoreFault.Of(e, "open the store", path);
            }

            throw;
        }
    }

    /// <summary>Does work in one transaction that holds the right to write from its start.</summary>
    /// <exception cref="StoreException">The store could not take it; nothing of it is kept.</exception>
    public T Write<T>(string doing, Func<SqliteConnection, T> work)
    {
        lock (_writing)
        {
            return Work(
                _writer ?? throw new StoreException($"cannot {doing}: '{Path}' is read-only; give this user the right to write it, or choose another data folder"),
                deferred: false,
                doing,
                work);
        }
    }

    /// <inheritdoc cref="Write{T}"/>
    public void Write(string doing, Action<SqliteConnection> work) => Write(doing, connection =>
    {
        work(connection);
        return true;
    });

    /// <summary>Reads in one transaction: all of it sees one state of the store.</summary>
    /// <exception cref="StoreException">The store could not be read.</exception>
    public T Read<T>(string doing, Func<SqliteConnection, T> work)
    {
        lock (_reading)
        {
            return Work(_reader, deferred: true, doing, work);
        }
    }

    /// <summary>Writes a snapshot of the store to a new file, while others may write to the store.</summary>
    /// <exception cref="StoreException">It could not be read or written.</exception>
    public void CopyTo(string path)
    {
        lock (_reading)
        {
            try
            {
                _reader.Execute("VACUUM INTO @path", new { path });
            }
            catch (SqliteException e)
            {
                throw StoreFault.Of(e, $"copy the store to '{path}'", Path);
            }
        }
    }

    /// <summary>Moves the write-ahead log into the database, as far as no reader needs it. For when no motor is on.</summary>
    public void Tidy()
    {
        lock (_writing)
        {
            try
            {
                _writer?.Execute("PRAGMA wal_checkpoint(PASSIVE)");
            }
            catch (SqliteException)
            {
                // Nothing is lost: what is in the log is in the store; the next one moves it.
            }
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        lock (_reading)
        {
            _reader.Dispose();
        }

        lock (_writing)
        {
            _writer?.Dispose();
        }
    }

    private T Work<T>(SqliteConnection connection, bool deferred, string doing, Func<SqliteConnection, T> work)
    {
        try
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred);
            T result = work(connection);
            transaction.Commit();
            return result;
        }
        catch (Exception e) when (StoreFault.IsExpected(e))
        {
            throw StoreFault.Of(e, doing, Path);
        }
    }

    private static SqliteConnection Connect(string path, Durability durability)
    {
        SqliteConnectionStringBuilder text = new() { DataSource = path, Pooling = false, ForeignKeys = true, DefaultTimeout = 1 };
        SqliteConnection connection = new(text.ConnectionString);
        try
        {
            connection.Open();
            connection.Execute($"PRAGMA busy_timeout = {BusyTimeoutMs}");
            connection.Execute("PRAGMA journal_mode = WAL");

            // Never in the middle of a run, whose next write would wait for it: see Tidy.
            connection.Execute("PRAGMA wal_autocheckpoint = 0");
            connection.Execute($"PRAGMA synchronous = {(durability == Durability.Full ? "FULL" : "NORMAL")}");
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }
}
