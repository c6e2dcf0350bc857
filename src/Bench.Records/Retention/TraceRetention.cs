using System.Globalization;
using Bench.Model.Entries;
using Bench.Records.Database;
using Bench.Records.Entries;
using Bench.Records.Keys;
using Bench.Records.Runs;
using Bench.Records.Traces;
using Dapper;

namespace Bench.Records.Retention;

/// <summary>
/// Drops trace files by policy. The entry that says so is on the disk before its file goes: what is killed between the two
/// leaves a file too many, which the next time takes away, and never a file that is gone without a word.
/// </summary>
internal sealed class TraceRetention(StoreDatabase database, TraceFolder traces, Signing signing, TimeProvider time)
{
    /// <summary>Trace files on the disk of runs that began more than some days ago, oldest first, those that an entry has dropped already among them.</summary>
    public IReadOnlyList<OldTrace> Due(int olderThanDays)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(olderThanDays, 1);
        string before = RunColumns.TimeText(time.GetUtcNow() - TimeSpan.FromDays(olderThanDays));
        return database.Read("look for old traces", connection => connection.Query<Row>(
                "SELECT id AS Id, started_at AS StartedAt, serial AS Serial, trace_file AS File FROM run WHERE started_at < @before AND trace_file IS NOT NULL ORDER BY started_at",
                new { before }).AsList())
            .Select(row => (Row: row, Bytes: traces.LengthOf(row.File)))
            .Where(found => found.Bytes is not null)
            .Select(found => new OldTrace(
                Guid.Parse(found.Row.Id), DateTimeOffset.Parse(found.Row.StartedAt, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal),
                found.Row.Serial, found.Row.File, found.Bytes!.Value))
            .ToList();
    }

    /// <summary>Drops them: an entry for each, then its file.</summary>
    /// <returns>Those that are gone.</returns>
    public IReadOnlyList<OldTrace> Drop(int olderThanDays, string because, string by)
    {
        IReadOnlyList<OldTrace> due = Due(olderThanDays);
        foreach (OldTrace trace in due)
        {
            string id = RunColumns.IdText(trace.Run);
            database.Write($"drop the trace of run {id}", connection =>
            {
                if (EntryBook.Read(connection, id, database.Path).Any(e => e.Entry is DroppedTrace))
                {
                    return;
                }

                SealedEntry entry = EntryChain.Append(connection, new DroppedTrace
                {
                    Run = trace.Run,
                    MadeAt = time.GetUtcNow(),
                    TraceFile = trace.File,
                    TraceSha256 = connection.ExecuteScalar<string>("SELECT trace_sha256 FROM run WHERE id = @id", new { id })!,
                    OlderThanDays = olderThanDays,
                    Because = because,
                    By = by,
                });
                signing.Sign(connection, entry.Hash);
            });
            traces.Delete(trace.File);
        }

        database.Tidy();
        return due;
    }

    private sealed class Row
    {
        public required string Id { get; init; }

        public required string StartedAt { get; init; }

        public required string Serial { get; init; }

        public required string File { get; init; }
    }
}
