using Bench.Records.Attachments;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Records.Copies;

/// <summary>The files of a data folder that its database names. Whatever else lies there is no part of the store.</summary>
internal static class NamedFiles
{
    /// <summary>
    /// Paths within the data folder: traces in order of sealing, without those that were dropped by policy; then photos and
    /// files of returns, each once. A return that was taken in again keeps what its earlier entries name. Most records name
    /// no such file, which canonical text shows much sooner than reading it as JSON does.
    /// </summary>
    public static IReadOnlyList<string> Of(SqliteConnection connection) =>
    [
        .. connection.Query<string>(
            """
            SELECT trace_file FROM run
            WHERE trace_file IS NOT NULL AND NOT EXISTS (SELECT 1 FROM entry WHERE entry.run = run.id AND entry.kind = 'dropped-trace')
            ORDER BY sequence
            """),
        .. connection.Query<string>(
            """
            SELECT file.value ->> '$.sha256' FROM entry, json_each(entry.entry, '$.return.attachments') AS file WHERE entry.kind = 'return'
            UNION
            SELECT file.value ->> '$.sha256' FROM run, json_each(run.record, '$.start.return.attachments') AS file WHERE instr(run.record, '"attachments":[{') > 0
            """).Select(AttachmentFolder.FileOf),
    ];
}
