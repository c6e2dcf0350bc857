using Bench.Records.Database;
using Dapper;

namespace Bench.Records.Integrity;

/// <summary>Counts what a store holds.</summary>
internal static class ContentsQuery
{
    /// <summary>The contents.</summary>
    public static StoreContents Run(StoreDatabase database) => database.Read("count what the store holds", connection => new StoreContents
    {
        Runs = connection.ExecuteScalar<long>("SELECT count(*) FROM run"),
        Entries = connection.ExecuteScalar<long>("SELECT count(*) FROM entry"),
        Unsigned = connection.ExecuteScalar<long>(
            """
            SELECT (SELECT count(*) FROM run WHERE hash NOT IN (SELECT hash FROM signature))
                + (SELECT count(*) FROM entry WHERE hash NOT IN (SELECT hash FROM signature))
            """),
        Keys = connection.Query<KeyUse>(
            """
            SELECT fingerprint AS Fingerprint, made_at AS IntroducedAt,
                (SELECT count(*) FROM signature WHERE signature.key = bench_key.fingerprint) AS Signed, public_key AS PublicKey
            FROM bench_key ORDER BY sequence
            """).AsList(),
        DroppedTraces = connection.Query<TraceDrop>("SELECT run AS Run, made_at AS MadeAt, because AS Because, [by] AS [By] FROM dropped_trace ORDER BY sequence").AsList(),
        LastRunHash = connection.ExecuteScalar<string?>("SELECT hash FROM run ORDER BY sequence DESC LIMIT 1"),
        LastEntryHash = connection.ExecuteScalar<string?>("SELECT hash FROM entry ORDER BY sequence DESC LIMIT 1"),
    });
}
