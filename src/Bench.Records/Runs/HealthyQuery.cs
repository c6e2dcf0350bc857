using System.Globalization;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Records.Canonical;
using Bench.Records.Database;
using Dapper;

namespace Bench.Records.Runs;

/// <summary>Finds what healthy units of a run's profile showed.</summary>
internal static class HealthyQuery
{
    /// <summary>Newest runs that are looked into: each is read whole, some 110 kB, and a packet must not wait for an archive.</summary>
    private const int MostRead = 120;

    // The index run_list finds the runs without touching a record; a later judgement that did not free a unit takes it out.
    private const string Sql =
        """
        SELECT run.started_at AS StartedAt, run.serial AS Serial, run.record -> '$.features.current' AS Profile
        FROM (
            SELECT id FROM run
            WHERE family = @family AND simulated = @simulated AND outcome = @judged AND disposition = @reusable AND serial <> @serial
            ORDER BY started_at DESC, id DESC LIMIT @most) AS newest
        JOIN run ON run.id = newest.id
        WHERE json_valid(run.record) AND run.record ->> '$.start.profile.sha256' = @sha256
            AND NOT EXISTS (
                SELECT 1 FROM entry WHERE entry.run = run.id AND entry.kind = 'judgement'
                    AND coalesce(entry.entry ->> '$.judgement.disposition', '') <> @reusable)
        ORDER BY run.started_at DESC, run.id DESC
        """;

    /// <summary>Current by angle of the newest test of each other unit that was judged reusable by the profile of a run.</summary>
    /// <param name="database">The store.</param>
    /// <param name="start">The run.</param>
    /// <param name="most">Units that are enough.</param>
    public static IReadOnlyList<HealthyCurrent> Run(StoreDatabase database, RunStart start, int most) => database.Read("look for healthy units", connection =>
    {
        HashSet<string> seen = new(StringComparer.Ordinal);
        List<HealthyCurrent> units = [];
        foreach (Row row in connection.Query<Row>(
            Sql,
            new
            {
                family = start.Profile.Family,
                simulated = start.Simulated,
                serial = start.Return.Serial,
                sha256 = start.Profile.Sha256,
                judged = BenchJson.Word(RunOutcome.Judged),
                reusable = BenchJson.Word(Disposition.Reusable),
                most = MostRead,
            },
            buffered: false))
        {
            if (seen.Add(row.Serial) && row.Profile is { } profile)
            {
                units.Add(new HealthyCurrent(
                    DateTimeOffset.Parse(row.StartedAt, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal), StoredJson.Parse<AngleProfile>(profile)));
            }

            if (units.Count >= most)
            {
                break;
            }
        }

        return units;
    });

    private sealed class Row
    {
        public string StartedAt { get; init; } = "";

        public string Serial { get; init; } = "";

        public string? Profile { get; init; }
    }
}
