using Bench.Model.Entries;
using Bench.Records.Database;
using Bench.Records.Keys;
using Bench.Records.Runs;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Records.Entries;

/// <summary>What is said after a run was sealed, in one chain. There is no way to change or remove an entry.</summary>
internal sealed class EntryBook(StoreDatabase database, Signing signing)
{
    /// <summary>Adds an entry of a sealed run.</summary>
    /// <param name="run">The run.</param>
    /// <param name="make">Makes the entry of the run's hash and the entries it has, while nobody else can add one.</param>
    /// <exception cref="StoreException">There is no such sealed run, or the store could not take it.</exception>
    public SealedEntry Add(Guid run, Func<string, IReadOnlyList<SealedEntry>, StoreEntry> make)
    {
        string id = RunColumns.IdText(run);
        return database.Write($"add an entry of run {id}", connection =>
        {
            string hash = connection.ExecuteScalar<string?>("SELECT hash FROM run WHERE id = @id", new { id })
                ?? throw new StoreException($"there is no sealed run {id} in '{database.Path}'; 'bench runs' lists them");
            SealedEntry entry = EntryChain.Append(connection, make(hash, Read(connection, id, database.Path)));
            signing.Sign(connection, entry.Hash);
            return entry;
        });
    }

    /// <summary>Those of a run, oldest first.</summary>
    public IReadOnlyList<SealedEntry> Of(Guid run) => database.Read("read entries", connection => Read(connection, RunColumns.IdText(run), database.Path));

    /// <summary>Those of a run, oldest first, within the transaction of the caller.</summary>
    /// <param name="connection">The store.</param>
    /// <param name="id">The run's id as stored.</param>
    /// <param name="where">File of the store, for messages.</param>
    public static IReadOnlyList<SealedEntry> Read(SqliteConnection connection, string id, string where) => connection
        .Query<(long Sequence, string Hash, string Text)>("SELECT sequence, hash, entry FROM entry WHERE run = @id ORDER BY sequence", new { id })
        .Select(row => new SealedEntry(row.Sequence, row.Hash, Parse(row.Text, where)))
        .ToList();

    private static StoreEntry Parse(string text, string where)
    {
        try
        {
            return EntryText.Parse(text);
        }
        catch (FormatException e)
        {
            throw new StoreException($"an entry in '{where}' can't be read ({e.Message}); 'bench verify' tells whether it was altered", e);
        }
    }
}
