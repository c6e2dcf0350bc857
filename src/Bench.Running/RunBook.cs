using Bench.Model.Runs;
using Bench.Running.Safety;

namespace Bench.Running;

/// <summary>A run's events, in memory for the record and in the journal as they happen.</summary>
internal sealed class RunBook(RunClock clock, IRunJournal journal) : IGateRecord
{
    private readonly List<RunEvent> _events = [];
    private readonly Lock _lock = new();
    private int _stored;

    /// <summary>Events so far.</summary>
    public IReadOnlyList<RunEvent> Events
    {
        get
        {
            lock (_lock)
            {
                return [.. _events];
            }
        }
    }

    /// <inheritdoc/>
    public void Write(RunEventKind kind, string text)
    {
        // The gate's guard writes from a timer; order in memory and store must agree.
        lock (_lock)
        {
            Add_NeedsLock(kind, text);
            while (_stored < _events.Count)
            {
                journal.Write(_events[_stored]);
                _stored++;
            }
        }
    }

    /// <inheritdoc/>
    public void WriteSoon(RunEventKind kind, string text)
    {
        lock (_lock)
        {
            Add_NeedsLock(kind, text);
        }
    }

    /// <summary>As <see cref="Write"/>, where a record that can't be written must keep nobody from going on: the run ends for that reason elsewhere.</summary>
    public void WriteSafely(RunEventKind kind, string text)
    {
        try
        {
            Write(kind, text);
        }
        catch (JournalException)
        {
            // It is kept in memory, and whoever writes next is told.
        }
    }

    private void Add_NeedsLock(RunEventKind kind, string text) =>
        _events.Add(new RunEvent(Math.Round(clock.NowS, 6), kind, text));
}
