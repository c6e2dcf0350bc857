using Bench.Records.Files;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Records.Database;

/// <summary>Brings a store's schema up to date: all missing steps or none, and a copy of what was there before beside it.</summary>
internal static class Migration
{
    /// <summary>Applies the steps that are missing.</summary>
    /// <param name="connection">The store, outside a transaction.</param>
    /// <param name="path">Its file.</param>
    /// <param name="steps">Step i leads from version i to version i + 1.</param>
    /// <exception cref="StoreException">It is not ours, or newer than the steps.</exception>
    public static void Run(SqliteConnection connection, string path, IReadOnlyList<string> steps)
    {
        int before = Version(connection, path, steps);
        if (before > 0 && before < steps.Count)
        {
            Copy(connection, $"{path}.v{before}");
        }

        using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);

        // Another program may have migrated it since.
        int version = Version(connection, path, steps);
        if (version < steps.Count)
        {
            foreach (string step in steps.Skip(version))
            {
                connection.Execute(step);
            }

            connection.Execute($"PRAGMA application_id = {Schema.ApplicationId}");
            connection.Execute($"PRAGMA user_version = {steps.Count}");
        }

        transaction.Commit();
    }

    /// <summary>Sees that a store which may not be written has the schema of the steps.</summary>
    /// <exception cref="StoreException">It has not, or is not ours.</exception>
    public static void Demand(SqliteConnection connection, string path, IReadOnlyList<string> steps)
    {
        int version = Version(connection, path, steps);
        if (version < steps.Count)
        {
            throw new StoreException(
                $"cannot open the store: '{path}' has schema {version} and this program needs {steps.Count}, and it is read-only; "
                + "open it once where it may be written, or copy the data folder there");
        }
    }

    private static int Version(SqliteConnection connection, string path, IReadOnlyList<string> steps)
    {
        int version = connection.ExecuteScalar<int>("PRAGMA user_version");
        int application = connection.ExecuteScalar<int>("PRAGMA application_id");
        bool empty = connection.ExecuteScalar<int>("SELECT count(*) FROM sqlite_schema") == 0;
        if (application != Schema.ApplicationId && !empty)
        {
            throw new StoreException($"cannot open the store: '{path}' is the database of another program; move it away, or choose another data folder");
        }

        return version > steps.Count
            ? throw new StoreException(
                $"cannot open the store: '{path}' has schema {version}, and this program knows schemas up to {steps.Count}; "
                + "use the newer program that wrote it, or choose another data folder")
            : version;
    }

    // Written aside and renamed: a copy cut short by a full disk must not pass for one. SQLite does not flush what it
    // writes here (https://www.sqlite.org/lang_vacuum.html, "VACUUM with an INTO clause").
    private static void Copy(SqliteConnection connection, string to)
    {
        string aside = to + WholeFile.Unfinished;
        File.Delete(aside);
        connection.Execute("VACUUM INTO @aside", new { aside });
        WholeFile.Publish(to);
    }
}
