using System.Globalization;
using Bench.Model.Judging;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Records.Canonical;
using Bench.Records.Database;
using Bench.Records.Entries;
using Bench.Records.Keys;
using Dapper;

namespace Bench.Records.Runs;

/// <summary>Lists and finds runs.</summary>
internal sealed class RunQueries(StoreDatabase database)
{
    private const int MostNamed = 5;

    /// <summary>Runs that a filter lets through, newest first.</summary>
    public IReadOnlyList<RunSummary> List(RunFilter filter) => database.Read("list runs", connection =>
    {
        (string sql, DynamicParameters values) = RunSearch.List(filter);
        return connection.Query<Row>(sql, values).Select(r => r.Summary()).ToList();
    });

    /// <summary>How many runs a filter lets through, whatever part of them it asks for.</summary>
    public int Count(RunFilter filter) => database.Read("count runs", connection =>
    {
        (string sql, DynamicParameters values) = RunSearch.Count(filter);
        return connection.ExecuteScalar<int>(sql, values);
    });

    /// <summary>The sealed run of an id or of the beginning of one; null when there is none.</summary>
    /// <exception cref="StoreException">The text is no beginning of an id, or of more than one run.</exception>
    public SealedRun? Find(string idOrPrefix)
    {
        string prefix = Prefix(idOrPrefix);

        // '~' sorts after every character of an id.
        List<Row> rows = database.Read("find a run", connection => connection.Query<Row>(
            """
            SELECT id AS Id, record AS Record, hash AS Hash, previous_hash AS PreviousHash, trace_file AS TraceFile, trace_sha256 AS TraceSha256
            FROM run WHERE id >= @prefix AND id < @prefix || '~' ORDER BY id LIMIT @most
            """, new { prefix, most = MostNamed + 1 }).AsList());
        return rows.Count switch
        {
            0 => null,
            1 => database.Read("find what was said of a run", connection => rows[0].Sealed(database.Path) with
            {
                Entries = EntryBook.Read(connection, rows[0].Id, database.Path),
                Signature = Signing.Find(connection, rows[0].Hash),
            }),
            _ => throw new StoreException(
                $"more than one run begins with '{idOrPrefix}': {string.Join(", ", rows.Take(MostNamed).Select(r => r.Id))}"
                + $"{(rows.Count > MostNamed ? " and more" : "")}; give more of the id"),
        };
    }

    /// <summary>When the latest real run since a time began in which a unit landed a move at a position; null when there is none.</summary>
    public DateTimeOffset? LastDrove(string bench, string position, DateTimeOffset since) => database.Read("look for the last unit that turned", connection =>
        connection.QueryFirstOrDefault<string>(
            """
            SELECT started_at FROM run
            WHERE started_at >= @since AND simulated = 0
                AND record ->> '$.start.bench.name' = @bench AND record ->> '$.start.bench.position' = @position
                AND EXISTS (SELECT 1 FROM json_each(record, '$.moves') AS m WHERE m.value ->> 'end' = 'landed')
            ORDER BY started_at DESC LIMIT 1
            """, new { bench, position, since = RunColumns.TimeText(since) }) is string text
            ? DateTimeOffset.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal)
            : (DateTimeOffset?)null);

    /// <summary>What was typed, with hyphens where an id has them.</summary>
    private static string Prefix(string typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        string digits = typed.Trim().Replace("-", "", StringComparison.Ordinal).ToLowerInvariant();
        if (digits.Length is 0 or > 32 || !digits.All(char.IsAsciiHexDigit))
        {
            throw new StoreException($"'{typed}' is not a run's id or the beginning of one: 1 to 32 hexadecimal digits, with or without hyphens; 'bench runs' lists them");
        }

        return string.Join('-', new[] { (0, 8), (8, 12), (12, 16), (16, 20), (20, 32) }
            .Where(part => part.Item1 < digits.Length)
            .Select(part => digits[part.Item1..Math.Min(part.Item2, digits.Length)]));
    }

    private sealed class Row
    {
        public required string Id { get; init; }

        public string StartedAt { get; init; } = "";

        public string Serial { get; init; } = "";

        public string Family { get; init; } = "";

        public bool Simulated { get; init; }

        public bool Open { get; init; }

        public string? Outcome { get; init; }

        public string? Disposition { get; init; }

        public string? Claim { get; init; }

        public string? Symptom { get; init; }

        public string? LikeliestCause { get; init; }

        public long? CorrectedAt { get; init; }

        public long? SignedAt { get; init; }

        public long? SaidAt { get; init; }

        public string Record { get; init; } = "";

        public string Hash { get; init; } = "";

        public string PreviousHash { get; init; } = "";

        public string? TraceFile { get; init; }

        public string? TraceSha256 { get; init; }

        public RunSummary Summary() => new(
            Guid.Parse(Id), DateTimeOffset.Parse(StartedAt, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal), Serial, Family, Simulated, Open,
            EnumWords<RunOutcome>.Parse(Outcome), EnumWords<Disposition>.Parse(Disposition), EnumWords<ClaimOutcome>.Parse(Claim),
            EnumWords<Symptom>.Parse(Symptom), LikeliestCause)
        {
            Corrected = CorrectedAt is not null,
            SignedOff = SignedAt is null ? SignOffState.None : SaidAt > SignedAt ? SignOffState.Older : SignOffState.Current,
        };

        public SealedRun Sealed(string where)
        {
            try
            {
                return new SealedRun
                {
                    Record = StoredJson.Parse<RunRecord>(Record),
                    Hash = Hash,
                    PreviousHash = PreviousHash,
                    TraceFile = TraceFile,
                    TraceSha256 = TraceSha256,
                };
            }
            catch (FormatException e)
            {
                throw new StoreException($"the record of run {Id} in '{where}' can't be read ({e.Message}); 'bench verify' tells whether it was altered", e);
            }
        }
    }
}
