using Bench.Model.Entries;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Records.Attachments;
using Bench.Records.Canonical;
using Bench.Records.Database;
using Bench.Records.Entries;
using Bench.Records.Runs;
using Bench.Records.Traces;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Records.Integrity;

/// <summary>
/// Holds every sealed entry against its hash and its neighbours, every trace file against its hash, and the columns
/// against the records. Whoever can rewrite the whole store can also rewrite all hashes: the last hash printed on an
/// evidence packet, or sent to a hub, is the witness outside.
/// </summary>
internal sealed class Verification(StoreDatabase database, TraceFolder traces, AttachmentFolder attachments)
{
    /// <summary>All problems found; none when the store is as it was sealed.</summary>
    /// <param name="trusted">Keys that alone may have signed; empty when signatures need only be good.</param>
    public IReadOnlyList<IntegrityProblem> Run(IReadOnlyCollection<string> trusted)
    {
        try
        {
            return Check(trusted);
        }
        catch (StoreException e) when (e.InnerException is SqliteException { SqliteErrorCode: Corrupt })
        {
            return [new IntegrityProblem(IntegrityProblemKind.DatabaseDamaged, null, e.Message)];
        }
    }

    private List<IntegrityProblem> Check(IReadOnlyCollection<string> trusted)
    {
        // Before the database: whoever seals writes the file while the run is in the store as open.
        IReadOnlyList<string> names = traces.Names();
        return database.Read("verify the store", connection => Check(connection, names, trusted));
    }

    private List<IntegrityProblem> Check(SqliteConnection connection, IReadOnlyList<string> names, IReadOnlyCollection<string> trusted)
    {
        List<IntegrityProblem> problems = [];
        foreach (string line in connection.Query<string>("PRAGMA quick_check(10)").Where(line => line != "ok"))
        {
            problems.Add(new IntegrityProblem(IntegrityProblemKind.DatabaseDamaged, null, $"'{database.Path}': {line}"));
        }

        List<TraceRow> files = [];
        Dictionary<string, Attachment> kept = [];
        HashSet<string> dropped = [];
        CheckChain(connection, "run", "record", RunRows, problems, link =>
        {
            CheckColumns(link, problems, kept);
            if (link.TraceFile is not null)
            {
                files.Add(new TraceRow(link.Run, link.TraceFile, link.TraceSha256));
            }
        });
        CheckChain(connection, "entry", "entry", EntryRows, problems, link =>
        {
            switch (CheckEntry(connection, link, problems))
            {
                case DroppedTrace drop:
                    dropped.Add($"{link.Run} {drop.TraceSha256}");
                    break;
                case ReturnEntry taken:
                    Expect(taken.Return, kept);
                    break;
            }
        });
        problems.AddRange(SignatureCheck.Run(connection, trusted));
        problems.AddRange(kept.Values.Select(Check).OfType<IntegrityProblem>());
        problems.AddRange(files.Select(row => Check(row, dropped.Contains($"{row.Run} {row.Sha256}"))).OfType<IntegrityProblem>());
        HashSet<string> known = [.. files.Select(f => f.File), .. connection.Query<string>("SELECT id FROM open_run").Select(id => TraceFolder.NameOf(Guid.Parse(id)))];
        problems.AddRange(names.Where(name => !known.Contains(name)).Select(name => new IntegrityProblem(
            IntegrityProblemKind.TraceWithoutRun, null, $"no run in the store has the trace file '{traces.PathOf(name)}': the end of the store is gone, or the file is from elsewhere")));
        return problems;
    }

    private const int Corrupt = 11;

    private const string RunRows =
        """
        SELECT sequence AS Sequence, id AS Run, record AS Text, trace_file AS TraceFile, trace_sha256 AS TraceSha256,
            previous_hash AS PreviousHash, hash AS Hash, started_at AS StartedAt, serial AS Serial, family AS Family,
            simulated AS Simulated, outcome AS Outcome, disposition AS Disposition, claim AS Claim,
            symptom AS Symptom, likeliest_cause AS LikeliestCause
        FROM run ORDER BY sequence
        """;

    private const string EntryRows =
        "SELECT sequence AS Sequence, coalesce(run, '') AS Run, kind AS Kind, entry AS Text, previous_hash AS PreviousHash, hash AS Hash FROM entry ORDER BY sequence";

    private static void CheckChain(
        SqliteConnection connection, string table, string noun, string sql, List<IntegrityProblem> problems, Action<Link> also)
    {
        long sequence = 0;
        string previous = "";
        foreach (Link link in connection.Query<Link>(sql, buffered: false))
        {
            if (link.Sequence != sequence + 1)
            {
                problems.Add(Missing(noun, sequence + 1, link.Sequence - 1));
            }
            else if (link.PreviousHash != previous)
            {
                problems.Add(new IntegrityProblem(IntegrityProblemKind.EntryReordered, link.Id, $"{noun} {link.Sequence} (run {link.Run}) does not follow the one before it"));
            }

            if (Fingerprint.OfLink(link.Text, link.TraceSha256, link.PreviousHash) != link.Hash)
            {
                problems.Add(new IntegrityProblem(IntegrityProblemKind.EntryAltered, link.Id, $"{noun} {link.Sequence} (run {link.Run}) is not what was sealed: its hash differs"));
            }

            also(link);
            sequence = link.Sequence;
            previous = link.Hash;
        }

        // SQLite remembers the greatest sequence ever given, so that a cut tail shows too.
        long last = connection.ExecuteScalar<long?>("SELECT seq FROM sqlite_sequence WHERE name = @table", new { table }) ?? 0;
        if (last > sequence)
        {
            problems.Add(Missing(noun, sequence + 1, last));
        }
    }

    private static IntegrityProblem Missing(string noun, long from, long to) => new(
        IntegrityProblemKind.EntryMissing, null, from == to ? $"{noun} {from} is gone" : $"{Plural(noun)} {from} to {to} are gone");

    private static string Plural(string noun) => noun == "entry" ? "entries" : noun + "s";

    private static void CheckColumns(Link link, List<IntegrityProblem> problems, Dictionary<string, Attachment> kept)
    {
        try
        {
            RunRecord record = StoredJson.Parse<RunRecord>(link.Text);
            Expect(record.Start.Return, kept);
            RunColumns columns = new(
                link.Run, link.StartedAt, link.Serial, link.Family, link.Simulated, link.Outcome, link.Disposition, link.Claim,
                link.Symptom, link.LikeliestCause);
            if (columns != RunColumns.Of(record))
            {
                problems.Add(new IntegrityProblem(IntegrityProblemKind.ColumnAltered, link.Id, $"the list shows run {link.Run} otherwise than its record: {columns}"));
            }
        }
        catch (FormatException e)
        {
            problems.Add(new IntegrityProblem(IntegrityProblemKind.EntryAltered, link.Id, $"the record of run {link.Run} can't be read: {e.Message}"));
        }
    }

    // An entry hangs under the run and the kind that it names itself; else it could be moved under another run.
    private static StoreEntry? CheckEntry(SqliteConnection connection, Link link, List<IntegrityProblem> problems)
    {
        try
        {
            StoreEntry entry = EntryText.Parse(link.Text);
            string run = entry.Run is { } id ? RunColumns.IdText(id) : "";
            if (run != link.Run || BenchJson.Word(entry.Kind) != link.Kind)
            {
                problems.Add(new IntegrityProblem(
                    IntegrityProblemKind.ColumnAltered, link.Id,
                    $"entry {link.Sequence} is shown as {link.Kind} of run {link.Run}; it is {BenchJson.Word(entry.Kind)} of run {run}"));
            }

            if (entry is SignOff sign && connection.ExecuteScalar<string?>("SELECT hash FROM run WHERE id = @run", new { run }) is { } hash && hash != sign.RunHash)
            {
                problems.Add(new IntegrityProblem(
                    IntegrityProblemKind.SignOffOfOther, link.Id, $"entry {link.Sequence}: {sign.Name} signed run {run} with another hash than it has now"));
            }

            return entry;
        }
        catch (FormatException e)
        {
            problems.Add(new IntegrityProblem(IntegrityProblemKind.EntryAltered, link.Id, $"entry {link.Sequence} can't be read: {e.Message}"));
            return null;
        }
    }

    private static void Expect(UnitReturn unit, Dictionary<string, Attachment> kept)
    {
        foreach (Attachment attachment in unit.Attachments)
        {
            kept.TryAdd(attachment.Sha256, attachment);
        }
    }

    private IntegrityProblem? Check(Attachment attachment)
    {
        byte[]? bytes = attachments.Read(attachment.Sha256);
        return bytes is null
            ? new IntegrityProblem(IntegrityProblemKind.AttachmentMissing, null, $"'{attachment.Name}' is gone: '{attachments.PathOf(attachment.Sha256)}'")
            : Fingerprint.Of(bytes) != attachment.Sha256
            ? new IntegrityProblem(IntegrityProblemKind.AttachmentAltered, null, $"'{attachment.Name}' is not what was kept: '{attachments.PathOf(attachment.Sha256)}'")
            : null;
    }

    private IntegrityProblem? Check(TraceRow row, bool mayBeGone)
    {
        byte[]? bytes = traces.Read(row.File);
        if (bytes is null)
        {
            return mayBeGone
                ? null
                : new IntegrityProblem(IntegrityProblemKind.TraceMissing, row.Id, $"the trace of run {row.Run} is gone: '{traces.PathOf(row.File)}'");
        }

        return Fingerprint.Of(bytes) == row.Sha256
            ? null
            : new IntegrityProblem(IntegrityProblemKind.TraceAltered, row.Id, $"the trace of run {row.Run} is not what was sealed: '{traces.PathOf(row.File)}'");
    }

    private sealed record TraceRow(string Run, string File, string? Sha256)
    {
        public Guid? Id => Guid.TryParse(Run, out Guid id) ? id : null;
    }

    private sealed class Link
    {
        public long Sequence { get; init; }

        public string Run { get; init; } = "";

        public string Text { get; init; } = "";

        public string? TraceFile { get; init; }

        public string? TraceSha256 { get; init; }

        public string PreviousHash { get; init; } = "";

        public string Hash { get; init; } = "";

        public string StartedAt { get; init; } = "";

        public string Serial { get; init; } = "";

        public string Family { get; init; } = "";

        public bool Simulated { get; init; }

        public string? Outcome { get; init; }

        public string? Disposition { get; init; }

        public string? Claim { get; init; }

        public string? Symptom { get; init; }

        public string? LikeliestCause { get; init; }

        public string Kind { get; init; } = "";

        public Guid? Id => Guid.TryParse(Run, out Guid id) ? id : null;
    }
}
