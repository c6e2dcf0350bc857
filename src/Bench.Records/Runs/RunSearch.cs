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

    /// <summary>The runs, newest first: rows of <see cref="RunSummary"/>'s names.</summary>
    public static (string Sql, DynamicParameters Values) List(RunFilter filter)
    {
        (string sql, DynamicParameters values) = All(filter);
        values.Add("most", filter.Most ?? -1);
        values.Add("skip", filter.Skip);
        return ($"{sql}\nORDER BY StartedAt DESC, Id DESC LIMIT @most OFFSET @skip", values);
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

        Ask("serial = @", filter.Serial);

        // The greatest character of Unicode sorts after all that a serial number can go on with.
        Ask("serial >= @ AND serial < @ || char(1114111)", filter.SerialPrefix);
        Ask("family = @", filter.Family);
        Ask("outcome = @", Word(filter.Outcome));
        Ask("disposition = @", Word(filter.Disposition));
        Ask("claim = @", Word(filter.Claim));
        Ask("symptom = @", Word(filter.Symptom));
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

    private static string? Word<T>(T? value)
        where T : struct, Enum => value is { } v ? BenchJson.Word(v) : null;

    private static string? Time(DateTimeOffset? at) => at is { } instant ? RunColumns.TimeText(instant) : null;
}
