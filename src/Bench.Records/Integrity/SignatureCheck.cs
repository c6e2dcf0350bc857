using Bench.Model.Entries;
using Bench.Records.Entries;
using Bench.Records.Keys;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Records.Integrity;

/// <summary>Holds every signature against the key that made it and the record it is of.</summary>
internal static class SignatureCheck
{
    /// <summary>All problems found.</summary>
    /// <param name="connection">The store.</param>
    /// <param name="trusted">Keys that alone may have signed, and must have from the first signature on; empty when signatures need only be good.</param>
    public static List<IntegrityProblem> Run(SqliteConnection connection, IReadOnlyCollection<string> trusted)
    {
        List<IntegrityProblem> problems = [];
        Dictionary<string, PublicKey> keys = Keys(connection, problems);
        try
        {
            foreach (Row row in connection.Query<Row>(Signatures, buffered: false))
            {
                if (Fault(row, keys) is { } fault)
                {
                    problems.Add(new IntegrityProblem(fault.Kind, row.Id, fault.Text));
                }
            }
        }
        finally
        {
            foreach (PublicKey key in keys.Values)
            {
                key.Dispose();
            }
        }

        if (trusted.Count > 0)
        {
            CheckTrusted(connection, "run", trusted, problems);
            CheckTrusted(connection, "entry", trusted, problems);
        }

        return problems;
    }

    private const string Signatures =
        """
        SELECT s.hash AS Hash, s.key AS Key, s.signature AS Signature, coalesce(r.id, e.run) AS Run, r.sequence AS RunNumber, e.sequence AS EntryNumber
        FROM signature AS s LEFT JOIN run AS r ON r.hash = s.hash LEFT JOIN entry AS e ON e.hash = s.hash
        """;

    // A key counts only when its entry says its own fingerprint and is signed with it: who introduced it had its private half.
    private static Dictionary<string, PublicKey> Keys(SqliteConnection connection, List<IntegrityProblem> problems)
    {
        Dictionary<string, PublicKey> keys = new(StringComparer.Ordinal);
        foreach ((long number, string hash, string text) in connection.Query<(long, string, string)>("SELECT sequence, hash, entry FROM entry WHERE kind = 'key' ORDER BY sequence"))
        {
            try
            {
                if (EntryText.Parse(text) is not KeyEntry entry)
                {
                    continue;
                }

                PublicKey key = PublicKey.Parse(entry.PublicKey);
                if (key.Fingerprint != entry.Fingerprint || Signing.Find(connection, hash)?.Key != key.Fingerprint || !keys.TryAdd(key.Fingerprint, key))
                {
                    key.Dispose();
                    problems.Add(new IntegrityProblem(IntegrityProblemKind.SignatureBad, null, $"entry {number} introduces a key that is not the one it names or did not sign it"));
                }
            }
            catch (FormatException e)
            {
                problems.Add(new IntegrityProblem(IntegrityProblemKind.SignatureBad, null, $"the key in entry {number} can't be read: {e.Message}"));
            }
        }

        return keys;
    }

    private static (IntegrityProblemKind Kind, string Text)? Fault(Row row, Dictionary<string, PublicKey> keys)
    {
        if (row.RunNumber is null && row.EntryNumber is null)
        {
            return (IntegrityProblemKind.SignatureStray, $"a signature under hash {row.Hash} is of no run and no entry here");
        }

        if (!keys.TryGetValue(row.Key, out PublicKey? key))
        {
            return (IntegrityProblemKind.SignatureBad, $"{row.What} is signed by key {row.Key}, which no entry introduces");
        }

        return key.Signed(row.Hash, row.Signature)
            ? null
            : (IntegrityProblemKind.SignatureBad, $"the signature of {row.What} is not one of key {row.Key}");
    }

    private static void CheckTrusted(SqliteConnection connection, string table, IReadOnlyCollection<string> trusted, List<IntegrityProblem> problems)
    {
        bool began = false;
        string sql = $"SELECT t.sequence, {(table == "run" ? "t.id" : "t.run")}, s.key FROM {table} AS t LEFT JOIN signature AS s ON s.hash = t.hash ORDER BY t.sequence";
        foreach ((long number, string? run, string? key) in connection.Query<(long, string?, string?)>(sql))
        {
            if (key is null ? began : !trusted.Contains(key))
            {
                string what = key is null ? "is not signed, though others before it are" : $"is signed by key {key}, which is none of those trusted";
                problems.Add(new IntegrityProblem(IntegrityProblemKind.SignatureMissing, Guid.TryParse(run, out Guid id) ? id : null, $"{table} {number} {what}"));
            }

            began |= key is not null;
        }

        if (!began && connection.ExecuteScalar<bool>($"SELECT EXISTS (SELECT 1 FROM {table})"))
        {
            problems.Add(new IntegrityProblem(IntegrityProblemKind.SignatureMissing, null, table == "run" ? "no run is signed" : "no entry is signed"));
        }
    }

    private sealed class Row
    {
        public string Hash { get; init; } = "";

        public string Key { get; init; } = "";

        public string Signature { get; init; } = "";

        public string? Run { get; init; }

        public long? RunNumber { get; init; }

        public long? EntryNumber { get; init; }

        public Guid? Id => Guid.TryParse(Run, out Guid id) ? id : null;

        public string What => RunNumber is { } number ? $"run {number} (run {Run})" : $"entry {EntryNumber}";
    }
}
