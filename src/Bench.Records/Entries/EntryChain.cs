using Bench.Model.Entries;
using Bench.Model.Serialization;
using Bench.Records.Canonical;
using Bench.Records.Integrity;
using Bench.Records.Runs;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Records.Entries;

/// <summary>The end of the chain of entries, where new ones go.</summary>
internal static class EntryChain
{
    /// <summary>Adds an entry, within the transaction of the caller.</summary>
    public static SealedEntry Append(SqliteConnection connection, StoreEntry entry)
    {
        string canonical = CanonicalJson.Write<object>(entry);
        string previous = connection.ExecuteScalar<string?>("SELECT hash FROM entry ORDER BY sequence DESC LIMIT 1") ?? "";
        string hash = Fingerprint.OfLink(canonical, null, previous);
        long sequence = connection.ExecuteScalar<long>(
            "INSERT INTO entry (run, kind, entry, previous_hash, hash) VALUES (@run, @kind, @canonical, @previous, @hash) RETURNING sequence",
            new { run = entry.Run is { } run ? RunColumns.IdText(run) : null, kind = BenchJson.Word(entry.Kind), canonical, previous, hash });
        return new SealedEntry(sequence, hash, entry);
    }
}
