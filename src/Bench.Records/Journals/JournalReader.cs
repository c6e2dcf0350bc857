using System.Globalization;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Records.Canonical;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Records.Journals;

/// <summary>
/// Reads the journal of a run that was never sealed, and makes of it the record of an aborted run. What can't be read is
/// left out and said so in the events: a damaged journal must not keep a bench from starting.
/// </summary>
internal static class JournalReader
{
    /// <summary>The run as far as its journal goes.</summary>
    /// <param name="connection">The store.</param>
    /// <param name="id">The run's id as stored.</param>
    /// <param name="start">What was known when it began, as stored.</param>
    /// <param name="written">Its trace file, when a sealing got as far as that; null otherwise.</param>
    /// <param name="now">When it is recovered.</param>
    /// <exception cref="FormatException">Not even the start can be read.</exception>
    public static (RunRecord Record, Trace Trace) Read(SqliteConnection connection, string id, string start, Trace? written, DateTimeOffset now)
    {
        RunStart begun = StoredJson.Parse<RunStart>(start);
        List<string> losses = [];
        Trace trace = ReadTrace(connection, id, losses);
        if (written is not null && written.Count > trace.Count && written.Slice(0, trace.Count).SequenceEqual(trace.All))
        {
            losses.Add($"The journal ends after {trace.Count} samples; the rest is from the trace file, which was whole already. The journal has lost its end, and events may have been in it.");
            trace = written;
        }

        List<RunEvent> events = Rows<RunEvent>(connection, "SELECT event FROM journal_event WHERE run = @id ORDER BY number", id, "An event", losses);
        List<Move> moves = Rows<Move>(connection, "SELECT move FROM journal_move WHERE run = @id ORDER BY number", id, "A move", losses);
        int[] without = [.. moves.Where(m => m.FirstSample + m.SampleCount > trace.Count).Select(m => m.Number)];
        if (without.Length > 0)
        {
            moves.RemoveAll(m => without.Contains(m.Number));
            losses.Add($"Moves {string.Join(", ", without)} were left out: their samples are not in the journal.");
        }

        double lastS = Math.Max(events.Count > 0 ? events.Max(e => e.TimeS) : 0.0, trace.Count > 0 ? trace[trace.Count - 1].TimeS : 0.0);
        string lastText = lastS.ToString("0.000", CultureInfo.InvariantCulture);
        string nowText = now.ToString("yyyy-MM-dd HH:mm:ss zzz", CultureInfo.InvariantCulture);
        events.Add(new RunEvent(lastS, RunEventKind.Note, $"The run was found unfinished and closed from its journal at {nowText}."));
        events.AddRange(losses.Select(loss => new RunEvent(lastS, RunEventKind.Fault, loss)));
        return (new RunRecord
        {
            Start = begun,
            EndedAt = begun.StartedAt + TimeSpan.FromSeconds(lastS),
            Outcome = RunOutcome.Aborted,
            Abort = AbortReason.HostDied,
            AbortText = $"The program stopped without closing the run; the last that is known is from {lastText} s into it. "
                + "Whether the outputs went off is not known: run 'bench safe', and check by hand that every output is off "
                + "before anyone touches the unit.",
            OutputsConfirmedOff = false,
            Events = events,
            Moves = moves,
            Samples = trace.Count,
        }, trace);
    }

    private static Trace ReadTrace(SqliteConnection connection, string id, List<string> losses)
    {
        Trace trace = new();
        try
        {
            foreach ((long first, byte[] data) in connection.Query<(long, byte[])>("SELECT first, data FROM journal_chunk WHERE run = @id ORDER BY first", new { id }))
            {
                if (first != trace.Count)
                {
                    throw new FormatException($"the next ones are from number {first} on");
                }

                SampleChunk.Decode(data, trace);
            }
        }
        catch (FormatException e)
        {
            losses.Add($"Samples from number {trace.Count} on could not be read: {e.Message}.");
        }

        return trace;
    }

    private static List<T> Rows<T>(SqliteConnection connection, string sql, string id, string what, List<string> losses)
        where T : class
    {
        List<T> rows = [];
        foreach (string text in connection.Query<string>(sql, new { id }))
        {
            try
            {
                rows.Add(StoredJson.Parse<T>(text));
            }
            catch (FormatException e)
            {
                losses.Add($"{what} could not be read: {e.Message}");
            }
        }

        return rows;
    }
}
