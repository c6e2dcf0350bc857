using System.Runtime.InteropServices;
using Bench.Model.Moves;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Records.Canonical;
using Bench.Records.Database;
using Bench.Records.Runs;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Records.Journals;

/// <summary>The journal of one open run. One thread at a time; several journals may write at once.</summary>
internal sealed class RunJournal : IRunJournal
{
    /// <summary>Samples that make a chunk full.</summary>
    public const int MostSamples = 256;

    /// <summary>Greatest age of the oldest unwritten sample against the newest, seconds: what a dead process may cost.</summary>
    public const double MostAgeS = 0.2;

    private readonly StoreDatabase _database;
    private readonly RunSealer _sealer;
    private readonly Guid _run;
    private readonly string _id;
    private readonly List<Sample> _pending = [];
    private int _written;
    private int _events;
    private bool _closed;

    /// <summary>Takes up the journal of a run that is in the store as open.</summary>
    public RunJournal(StoreDatabase database, RunSealer sealer, Guid run)
    {
        _database = database;
        _sealer = sealer;
        _run = run;
        _id = RunColumns.IdText(run);
    }

    /// <inheritdoc/>
    public void Write(RunEvent entry)
    {
        string text = CanonicalJson.Write(entry);
        Store("write an event", connection => connection.Execute(
            "INSERT INTO journal_event (run, number, event) VALUES (@_id, @number, @text)", new { _id, number = _events + 1, text }));
        _events++;
    }

    /// <inheritdoc/>
    public void Write(int first, ReadOnlySpan<Sample> samples)
    {
        ObjectDisposedException.ThrowIf(_closed, this);
        if (first != _written + _pending.Count)
        {
            throw new ArgumentOutOfRangeException(nameof(first), first, $"the next sample of run {_id} is number {_written + _pending.Count}");
        }

        foreach (ref readonly Sample sample in samples)
        {
            _pending.Add(sample);
            if (_pending.Count >= MostSamples || sample.TimeS - _pending[0].TimeS >= MostAgeS)
            {
                Flush();
            }
        }
    }

    /// <inheritdoc/>
    public void Write(Move move)
    {
        ArgumentNullException.ThrowIfNull(move);
        string text = CanonicalJson.Write(move);
        Store("write a move", connection => connection.Execute(
            "INSERT INTO journal_move (run, number, move) VALUES (@_id, @number, @text)", new { _id, number = move.Number, text }));
    }

    /// <inheritdoc/>
    public void Seal(RunRecord record, Trace trace)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(trace);
        if (record.Start.Id != _run || record.Samples != trace.Count)
        {
            throw new ArgumentException($"the record of run {record.Start.Id:D} with {record.Samples} samples does not belong to run {_id} with {trace.Count}", nameof(record));
        }

        ObjectDisposedException.ThrowIf(_closed, this);

        // A kill during the sealing must find every sample in the journal.
        Flush();
        try
        {
            _sealer.Seal(record, trace);
        }
        catch (StoreException e)
        {
            throw new JournalException(e.Message, e);
        }

        _closed = true;
    }

    /// <summary>Ends the writing. A run that was not sealed is given up: it can be recovered at once, by this process too.</summary>
    public void Dispose()
    {
        if (_closed)
        {
            return;
        }

        try
        {
            Store("give up a run", connection => connection.Execute(
                "UPDATE open_run SET owner_process = NULL, owner_started = NULL WHERE id = @_id", new { _id }));
        }
        catch (JournalException)
        {
            // The run is recovered all the same, once this process has ended.
        }

        _closed = true;
    }

    private void Flush()
    {
        if (_pending.Count > 0)
        {
            Store("write samples", static _ => { });
        }
    }

    /// <summary>Does the work and writes what samples wait, in one transaction: an event is never there without what led to it.</summary>
    private void Store(string doing, Action<SqliteConnection> work)
    {
        ObjectDisposedException.ThrowIf(_closed, this);
        byte[]? data = _pending.Count > 0 ? SampleChunk.Encode(CollectionsMarshal.AsSpan(_pending)) : null;
        try
        {
            _database.Write($"{doing} of run {_id}", connection =>
            {
                if (data is not null)
                {
                    connection.Execute(
                        "INSERT INTO journal_chunk (run, first, count, data) VALUES (@_id, @_written, @Count, @data)",
                        new { _id, _written, _pending.Count, data });
                }

                work(connection);
            });
        }
        catch (StoreException e)
        {
            throw new JournalException(e.Message, e);
        }

        _written += _pending.Count;
        _pending.Clear();
    }
}
