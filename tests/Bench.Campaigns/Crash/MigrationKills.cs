using Bench.Records;
using Bench.Records.Database;
using Dapper;

namespace Bench.Campaigns.Crash;

/// <summary>Kills a program while it brings a store to a later schema: the store is of the old or of the new one, whole, and the copy of before is whole or not there.</summary>
internal sealed class MigrationKills(Folders folders, Random random, Kills kills)
{
    /// <summary>This program's schema and a step that takes its time, as a later program may have it.</summary>
    private static readonly IReadOnlyList<string> Later =
    [
        .. Schema.Steps,
        """
        CREATE TABLE later (run TEXT NOT NULL, text TEXT NOT NULL) STRICT;
        INSERT INTO later SELECT id, record FROM run;
        CREATE INDEX later_text ON later (text);
        """,
    ];

    /// <summary>The process that is killed.</summary>
    public static int Migrate(string folder)
    {
        Writer.Say("migrating");
        using StoreDatabase database = StoreDatabase.Open(Path.Combine(folder, RecordStore.DatabaseName), Durability.Full, Later);
        Writer.Say("migrated");
        return 0;
    }

    /// <summary>Kills so many.</summary>
    public void Run(int count)
    {
        if (count == 0)
        {
            return;
        }

        string folder = folders.New();
        using (Child writer = Child.OfCampaign(static _ => { }, "crash-write", folder, "0", "40", "2", "0"))
        {
            writer.Succeed();
        }

        double takesS = 0.2;
        for (int done = 0; done < count;)
        {
            string copy = folders.CopyOf(folder);
            using Child migration = Child.OfCampaign(static _ => { }, "crash-migrate", copy);
            migration.Says("migrating");
            if (migration.KillAfter(TimeSpan.FromSeconds(1.2 * random.NextDouble() * takesS)))
            {
                kills.Count("migration");
                done++;
            }

            takesS = migration.Between("migrating", "migrated") ?? takesS;
            kills.Note(copy, Problems(copy));
            Directory.Delete(copy, recursive: true);
        }
    }

    private static IEnumerable<string> Problems(string folder)
    {
        string before = Path.Combine(folder, $"{RecordStore.DatabaseName}.v{Schema.Version}");
        if (File.Exists(before))
        {
            foreach (string problem in Held(before, Schema.Steps))
            {
                yield return $"the copy of before: {problem}";
            }
        }

        foreach (string problem in Held(Path.Combine(folder, RecordStore.DatabaseName), Later))
        {
            yield return problem;
        }
    }

    private static List<string> Held(string path, IReadOnlyList<string> steps)
    {
        try
        {
            using StoreDatabase database = StoreDatabase.Open(path, Durability.Full, steps);
            return database.Read("count", connection => new[] { "run", "entry", steps == Later ? "later" : "run" }
                .Where(table => connection.ExecuteScalar<int>($"SELECT count(*) FROM {table}") != 40)
                .Select(table => $"'{table}' has not its 40 rows")
                .Concat(connection.Query<string>("PRAGMA quick_check(3)").Where(line => line != "ok")).ToList());
        }
        catch (StoreException e)
        {
            return [e.Message];
        }
    }
}
