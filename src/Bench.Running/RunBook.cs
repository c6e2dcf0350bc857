using Bench.Model.Runs;

namespace Bench.Running;

/// <summary>A run's events, in memory for the record and in the journal as they happen.</summary>
internal sealed class RunBook(RunClock clock, IRunJournal journal)
{
    private readonly List<RunEvent> _events = [];
    private readonly Lock _lock = new();

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

    /// <summary>Takes an event down; durable when this returns.</summary>
    /// <exception cref="JournalException">The store can't take it.</exception>
    public void Write(RunEventKind kind, string text)
    {
        RunEvent entry = new(Math.Round(clock.NowS, 6), kind, text);

        // The gate's guard writes from a timer; order in memory and store must agree.
        lock (_lock)
        {
            _events.Add(entry);
            journal.Write(entry);
        }
    }
}
