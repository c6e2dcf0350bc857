using Bench.Model.Entries;
using Bench.Records.Database;
using Bench.Records.Entries;
using Bench.Records.Keys;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Records.Returns;

/// <summary>Returns as they were taken in: entries of no run, in the one chain. Of several of one return number the last counts.</summary>
internal sealed class ReturnBook(StoreDatabase database, Signing signing)
{
    private const string Rows = "SELECT sequence AS Sequence, hash AS Hash, entry AS Text FROM entry WHERE kind = 'return'";

    /// <summary>Adds one.</summary>
    /// <exception cref="StoreException">It has no return number, or another unit has it.</exception>
    public SealedEntry Add(ReturnEntry entry)
    {
        string number = entry.Return.ReturnNumber ?? throw new StoreException("cannot take in a return without a number; each arrival has its own");
        return database.Write($"take in return {number}", connection =>
        {
            if (Find(connection, number) is { } before && ((ReturnEntry)before.Entry).Return.Serial != entry.Return.Serial)
            {
                throw new StoreException($"return {number} is that of unit {((ReturnEntry)before.Entry).Return.Serial}; each arrival has a number of its own, look at the papers again");
            }

            SealedEntry added = EntryChain.Append(connection, entry);
            signing.Sign(connection, added.Hash);
            return added;
        });
    }

    /// <summary>The return of a number as it stands now; null when there is none.</summary>
    public SealedEntry? Find(string number) => database.Read("read a return", connection => Find(connection, number));

    private static SealedEntry? Find(SqliteConnection connection, string number) => connection
        .Query<Row>($"{Rows} AND entry ->> '$.return.return_number' = @number ORDER BY sequence DESC LIMIT 1", new { number })
        .Select(row => row.Sealed()).FirstOrDefault();

    /// <summary>Returns as they stand now, newest first.</summary>
    /// <param name="serial">Those of one unit; null for all.</param>
    public IReadOnlyList<SealedEntry> List(string? serial) => database.Read("list returns", connection => connection
        .Query<Row>(
            $"{Rows} AND sequence IN (SELECT max(sequence) FROM entry WHERE kind = 'return' GROUP BY entry ->> '$.return.return_number')"
            + " AND (@serial IS NULL OR entry ->> '$.return.serial' = @serial) ORDER BY sequence DESC", new { serial })
        .Select(row => row.Sealed()).ToList());

    private sealed class Row
    {
        public long Sequence { get; init; }

        public string Hash { get; init; } = "";

        public string Text { get; init; } = "";

        public SealedEntry Sealed()
        {
            try
            {
                return new SealedEntry(Sequence, Hash, EntryText.Parse(Text));
            }
            catch (FormatException e)
            {
                throw new StoreException($"entry {Sequence} can't be read ({e.Message}); 'bench verify' tells whether it was altered", e);
            }
        }
    }
}
