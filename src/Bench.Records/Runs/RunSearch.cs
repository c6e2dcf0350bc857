using Bench.Model.Serialization;
using Dapper;

namespace Bench.Records.Runs;

/// <summary>A filter as SQL. Only what it asks for is in the text, so that SQLite can choose an index for it.</summary>
internal static class RunSearch
{
    private const string Sealed =
        """
        SELECT id AS Id, started_at AS StartedAt, serial AS Serial, family AS Family, simulated AS Simulated, 0 AS Open,
            outcome AS Outcome, disposition AS Disposition, claim AS Claim, symptom AS Symptom, likeliest_cause AS LikeliestCause
        FROM run
        """;

    // A damaged start must not hide the other runs.
    private const string Open =
        """
        SELECT id, started_at, serial, family, simulated, 1, NULL, NULL, NULL, symptom, NULL
        FROM (SELECT *, NULL AS outcome, NULL AS disposition, NULL AS claim,
            CASE WHEN json_valid(start) THEN start ->> '$.return.symptom' END AS symptom,
            NULL AS likeliest_cause FROM open_run)
        """;

    // What was said later is looked up for the rows of the page alone.
    private const string WithEntries =
        """
        SELECT Id, StartedAt, Family, Simulated, Open, Outcome, Disposition, Claim, LikeliestCause,
            coalesce((SELECT entry ->> 'to' FROM entry WHERE run = Id AND kind = 'correction' AND entry ->> 'fact' = 'serial'
                ORDER BY sequence DESC LIMIT 1), Serial) AS Serial,
            coalesce((SELECT entry ->> 'to' FROM entry WHERE run = Id AND kind = 'correction' AND entry ->> 'fact' = 'symptom'
                ORDER BY sequence DESC LIMIT 1), Symptom) AS Symptom,
            (SELECT max(sequence) FROM entry WHERE run = Id AND kind = 'correction') AS CorrectedAt,
            (SELECT max(sequence) FROM entry WHERE run = Id AND kind = 'sign-off') AS SignedAt,
            (SELECT max(sequence) FROM entry WHERE run = Id AND kind IN ('correction', 'judgement')) AS SaidAt
        FROM (
        """;

    /// <summary>The runs, newest first: rows of <see cref="RunSummary"/>'s names, facts as set right last.</summary>
    public static (string Sql, DynamicParameters Values) List(RunFilter filter)
    {
        (string sql, DynamicParameters values) = All(filter);
        values.Add("most", filter.Most ?? -1);
        values.Add("skip", filter.Skip);
        return ($"{WithEntries}{sql}\nORDER BY StartedAt DESC, Id DESC LIMIT @most OFFSET @skip)\nORDER BY StartedAt DESC, Id DESC", values);
    }

    /// <summary>How many there are.</summary>
    public static (string Sql, DynamicParameters Values) Count(RunFilter filter)
    {
        (string sql, DynamicParameters values) = All(filter);
        return ($"SELECT count(*) FROM ({sql})", values);
    }

    private static (string Sql, DynamicParameters Values) All(RunFilter filter)
    {
        DynamicParameters values = new();
        List<string> conditions = [];
        void Ask(string condition, object? value)
        {
            if (value is not null)
            {
                string name = $"p{conditions.Count}";
                conditions.Add(condition.Replace("@", "@" + name, StringComparison.Ordinal));
                values.Add(name, value);
            }
        }

        Ask(Fact("serial", value => $"{value} = @"), filter.Serial);

        // The greatest character of Unicode sorts after all that a serial number can go on with.
        Ask(Fact("serial", value => $"{value} >= @ AND {value} < @ || char(1114111)"), filter.SerialPrefix);
        Ask("family = @", filter.Family);
        Ask("outcome = @", Word(filter.Outcome));
        Ask("disposition = @", Word(filter.Disposition));
        Ask("claim = @", Word(filter.Claim));
        Ask(Fact("symptom", value => $"{value} = @"), Word(filter.Symptom));
        Ask("likeliest_cause = @", filter.LikeliestCause);
        Ask("started_at >= @", Time(filter.From));
        Ask("started_at < @", Time(filter.Before));
        string where = conditions.Count == 0 ? "" : "\nWHERE " + string.Join(" AND ", conditions);
        string sql = filter.Open switch
        {
            false => Sealed + where,
            true => $"{Sealed}\nWHERE false\nUNION ALL\n{Open}{where}",
            null => $"{Sealed}{where}\nUNION ALL\n{Open}{where}",
        };
        return (sql, values);
    }

    // A run is found by a fact as it was sealed and as it was set right last. There are few corrections, and an index names them all.
    private static string Fact(string fact, Func<string, string> condition) =>
        $"""
        ({condition(fact)} OR id IN (
            SELECT run FROM (
                SELECT run, entry ->> 'fact' AS fact, entry ->> 'to' AS value, max(sequence) FROM entry WHERE kind = 'correction' GROUP BY run, fact)
            WHERE fact = '{fact}' AND {condition("value")}))
        """;

    private static string? Word<T>(T? value)
        where T : struct, Enum => value is { } v ? BenchJson.Word(v) : null;

    private static string? Time(DateTimeOffset? at) => at is { } instant ? RunColumns.TimeText(instant) : null;
}
