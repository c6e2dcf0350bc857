using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Records.Copies;

/// <summary>The files of a data folder that its database names. Whatever else lies there is no part of the store.</summary>
internal static class NamedFiles
{
    /// <summary>Paths within the data folder, in order of sealing; those that were dropped by policy are left out.</summary>
    public static IReadOnlyList<string> Of(SqliteConnection connection) => connection.Query<string>(
        """
        SELECT trace_file FROM run
        WHERE trace_file IS NOT NULL AND NOT EXISTS (SELECT 1 FROM entry WHERE entry.run = run.id AND entry.kind = 'dropped-trace')
        ORDER BY sequence
        """).AsList();
}
