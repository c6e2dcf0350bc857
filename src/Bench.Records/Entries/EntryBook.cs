using Bench.Model.Entries;
using Bench.Model.Serialization;
using Bench.Records.Canonical;
using Bench.Records.Database;
using Bench.Records.Integrity;
using Bench.Records.Runs;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Records.Entries;

/// <summary>What is said after a run was sealed, in one chain. There is no way to change or remove an entry.</summary>
internal sealed class EntryBook(StoreDatabase database)
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
            return Add(connection, make(hash, Of(connection, id)));
        });
    }

    /// <summary>Those of a run, oldest first.</summary>
    public IReadOnlyList<SealedEntry> Of(Guid run) => database.Read("read entries", connection => Of(connection, RunColumns.IdText(run)));

    /// <summary>Adds an entry in a transaction that is open.</summary>
    internal static SealedEntry Add(SqliteConnection connection, StoreEntry entry)
    {
        string canonical = CanonicalJson.Write<object>(entry);
        string previous = connection.ExecuteScalar<string?>("SELECT hash FROM entry ORDER BY sequence DESC LIMIT 1") ?? "";
        string hash = Fingerprint.OfLink(canonical, null, previous);
        long sequence = connection.ExecuteScalar<long>(
            "INSERT INTO entry (run, kind, entry, previous_hash, hash) VALUES (@run, @kind, @canonical, @previous, @hash) RETURNING sequence",
            new { run = entry.Run is { } run ? RunColumns.IdText(run) : null, kind = BenchJson.Word(entry.Kind), canonical, previous, hash });
        return new SealedEntry(sequence, hash, entry);
    }

    private List<SealedEntry> Of(SqliteConnection connection, string id) => connection
        .Query<(long Sequence, string Hash, string Text)>("SELECT sequence, hash, entry FROM entry WHERE run = @id ORDER BY sequence", new { id })
        .Select(row => new SealedEntry(row.Sequence, row.Hash, Parse(row.Text)))
        .ToList();

    private StoreEntry Parse(string text)
    {
        try
        {
            return EntryText.Parse(text);
        }
        catch (FormatException e)
        {
            throw new StoreException($"an entry in '{database.Path}' can't be read ({e.Message}); 'bench verify' tells whether it was altered", e);
        }
    }
}
