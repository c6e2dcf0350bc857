using Bench.Model.Moves;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Records.Canonical;
using Bench.Records.Database;
using Bench.Records.Runs;
using Bench.Records.Traces;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Records.Journals;

/// <summary>The journal of one open run. Samples come from one thread; events and moves from any. Several journals may write at once.</summary>
/// <remarks>
/// With <see cref="Durability.Full"/> samples are stored on a thread of the pool: a flush to the disk takes milliseconds,
/// at times a tenth of a second, and the runner must go on watching a motor meanwhile. Events and moves wait for it.
/// </remarks>
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
    private readonly bool _storeAside;

    /// <summary>Held while something is stored, so that chunks go in order.</summary>
    private readonly Lock _storing = new();

    /// <summary>Held while <see cref="_pending"/> and <see cref="_stored"/> change; never while the disk works.</summary>
    private readonly Lock _waiting = new();

    private readonly List<Sample> _pending = [];
    private int _stored;

    /// <summary>Events so far; changed under <see cref="_storing"/>. A failed one leaves a gap, which harms nobody.</summary>
    private int _events;

    private bool _closed;
    private volatile JournalException? _failure;

    /// <summary>Takes up the journal of a run that is in the store as open.</summary>
    public RunJournal(StoreDatabase database, RunSealer sealer, Guid run, bool storeAside)
    {
        _database = database;
        _sealer = sealer;
        _run = run;
        _id = RunColumns.IdText(run);
        _storeAside = storeAside;
    }

    /// <summary>The storing of samples that is under way, or the last one.</summary>
    public Task Storing { get; private set; } = Task.CompletedTask;

    /// <summary>How many samples are on the disk: 0 to this - 1 outlive what the store's durability says.</summary>
    public int Stored
    {
        get
        {
            lock (_waiting)
            {
                return _stored;
            }
        }
    }

    /// <inheritdoc/>
    public void Write(RunEvent entry)
    {
        ObjectDisposedException.ThrowIf(_closed, this);
        string text = CanonicalJson.Write(entry);
        Store("write an event", connection => connection.Execute(
            "INSERT INTO journal_event (run, number, event) VALUES (@_id, @number, @text)", new { _id, number = ++_events, text }));
    }

    /// <inheritdoc/>
    /// <exception cref="JournalException">These samples, or some before them, could not be stored. All are kept and tried again with the next write.</exception>
    public void Write(int first, ReadOnlySpan<Sample> samples)
    {
        ObjectDisposedException.ThrowIf(_closed, this);
        int next = NextSample();
        if (first != next)
        {
            throw new ArgumentOutOfRangeException(nameof(first), first, $"the next sample of run {_id} is number {next}");
        }

        foreach (ref readonly Sample sample in samples)
        {
            SampleRule.Check(sample);
            if (Add(sample) && _failure is null)
            {
                StoreSamples();
            }
        }

        if (Interlocked.Exchange(ref _failure, null) is { } failure)
        {
            throw failure;
        }
    }

    /// <inheritdoc/>
    public void Write(Move move)
    {
        ArgumentNullException.ThrowIfNull(move);
        ObjectDisposedException.ThrowIf(_closed, this);
        string text = CanonicalJson.Write(move);
        Store("write a move", connection => connection.Execute(
            "INSERT INTO journal_move (run, number, move) VALUES (@_id, @number, @text)", new { _id, number = move.Number, text }));
    }

    /// <inheritdoc/>
    public void Seal(RunRecord record, Trace trace)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(trace);
        ObjectDisposedException.ThrowIf(_closed, this);
        if (record.Start.Id != _run || record.Samples != trace.Count)
        {
            throw new ArgumentException($"the record of run {record.Start.Id:D} with {record.Samples} samples does not belong to run {_id} with {trace.Count}", nameof(record));
        }

        // A kill during the sealing must find every sample in the journal.
        Store("write samples", static _ => { });
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

        _closed = true;
        try
        {
            Store("give up", connection => connection.Execute(
                "UPDATE open_run SET owner_process = NULL, owner_started = NULL WHERE id = @_id", new { _id }));
        }
        catch (JournalException)
        {
            // The run is recovered all the same, once this process has ended.
        }
    }

    private int NextSample()
    {
        lock (_waiting)
        {
            return _stored + _pending.Count;
        }
    }

    /// <summary>Adds a sample to those that wait.</summary>
    /// <returns>Whether they make a chunk.</returns>
    private bool Add(in Sample sample)
    {
        lock (_waiting)
        {
            _pending.Add(sample);
            return _pending.Count >= MostSamples || sample.TimeS - _pending[0].TimeS >= MostAgeS;
        }
    }

    private void StoreSamples()
    {
        if (!_storeAside)
        {
            TryStoreSamples();
        }
        else if (Storing.IsCompleted)
        {
            Storing = Task.Run(TryStoreSamples);
        }
    }

    private void TryStoreSamples()
    {
        try
        {
            Store("write samples", static _ => { });
        }
        catch (JournalException e)
        {
            _failure = e;
        }
    }

    /// <summary>Does the work and stores what samples wait, in one transaction: an event is never there without what led to it.</summary>
    private void Store(string doing, Action<SqliteConnection> work)
    {
        lock (_storing)
        {
            Sample[] samples;
            lock (_waiting)
            {
                samples = [.. _pending];
            }

            try
            {
                _database.Write($"{doing} of run {_id}", connection =>
                {
                    if (samples.Length > 0)
                    {
                        connection.Execute(
                            "INSERT INTO journal_chunk (run, first, count, data) VALUES (@_id, @_stored, @Length, @data)",
                            new { _id, _stored, samples.Length, data = SampleChunk.Encode(samples) });
                    }

                    work(connection);
                });
            }
            catch (StoreException e)
            {
                throw new JournalException(e.Message, e);
            }

            lock (_waiting)
            {
                _stored += samples.Length;
                _pending.RemoveRange(0, samples.Length);
            }

            _failure = null;
        }
    }
}
