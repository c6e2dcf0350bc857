using Bench.Records.Database;
using Bench.Records.Runs;
using Dapper;

namespace Bench.Records.Outboxes;

/// <summary>
/// The queue of sealed runs and entries on their way to a hub. It is filled by the transaction that seals, so nothing is
/// sealed and not queued; an item stays until the hub has acknowledged it, so it is sent at least once.
/// </summary>
public sealed class Outbox
{
    private readonly StoreDatabase _database;

    internal Outbox(StoreDatabase database) => _database = database;

    /// <summary>What waits, oldest first.</summary>
    /// <param name="most">Most items.</param>
    public IReadOnlyList<OutboxItem> Waiting(int most) => _database.Read("read the outbox", connection => connection
        .Query<Row>(
            """
            SELECT o.sequence AS Sequence, o.run AS Run, o.entry AS Entry, coalesce(r.hash, e.hash) AS Hash,
                coalesce(r.record, e.entry) AS Text, o.attempts AS Attempts, o.last_error AS LastError
            FROM outbox AS o LEFT JOIN run AS r ON r.id = o.run LEFT JOIN entry AS e ON e.sequence = o.entry
            WHERE o.sent_at IS NULL ORDER BY o.sequence LIMIT @most
            """, new { most })
        .Select(r => new OutboxItem(r.Sequence, r.Run is null ? null : Guid.Parse(r.Run), r.Entry, r.Hash, r.Text, r.Attempts, r.LastError)).ToList());

    /// <summary>How many wait.</summary>
    public int Count => _database.Read("count the outbox", connection => connection.ExecuteScalar<int>("SELECT count(*) FROM outbox WHERE sent_at IS NULL"));

    /// <summary>Notes that the hub has acknowledged an item. Noting it again changes nothing.</summary>
    /// <param name="sequence">Its place in the queue.</param>
    /// <param name="at">When.</param>
    public void Acknowledged(long sequence, DateTimeOffset at) => _database.Write("note what the hub acknowledged", connection => connection.Execute(
        "UPDATE outbox SET sent_at = @at, last_error = NULL WHERE sequence = @sequence AND sent_at IS NULL", new { sequence, at = RunColumns.TimeText(at) }));

    /// <summary>Notes that sending failed; the item stays where it is.</summary>
    /// <param name="sequence">Its place in the queue.</param>
    /// <param name="error">Why.</param>
    public void Failed(long sequence, string error) => _database.Write("note what the hub did not take", connection => connection.Execute(
        "UPDATE outbox SET attempts = attempts + 1, last_error = @error WHERE sequence = @sequence AND sent_at IS NULL", new { sequence, error }));

    private sealed class Row
    {
        public long Sequence { get; init; }

        public string? Run { get; init; }

        public long? Entry { get; init; }

        public string Hash { get; init; } = "";

        public string Text { get; init; } = "";

        public int Attempts { get; init; }

        public string? LastError { get; init; }
    }
}
