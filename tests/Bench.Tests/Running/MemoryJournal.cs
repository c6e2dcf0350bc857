using Bench.Model.Moves;
using Bench.Model.Runs;
using Bench.Model.Traces;

namespace Bench.Tests.Running;

/// <summary>A journal in memory that can be made to refuse from some write on, as a full disk would.</summary>
internal sealed class MemoryJournal : IRunJournal
{
    private int _writes;

    public List<RunEvent> Events { get; } = [];

    public List<Move> Moves { get; } = [];

    public List<Sample> Samples { get; } = [];

    public RunRecord? Sealed { get; private set; }

    /// <summary>The write, from 1, from which on every one is refused; 0 for never.</summary>
    public int RefusesFrom { get; set; }

    /// <summary>Called at each event, before it is taken.</summary>
    public Action<RunEvent>? OnEvent { get; set; }

    public int Writes => _writes;

    public void Write(RunEvent entry)
    {
        OnEvent?.Invoke(entry);
        Take();
        Events.Add(entry);
    }

    public void Write(int first, ReadOnlySpan<Sample> samples)
    {
        Assert.Equal(Samples.Count, first);
        Samples.AddRange(samples);

        // As the store's: what it could not write it has kept, and the next write tries again.
        Take();
    }

    public void Write(Move move)
    {
        Take();
        Moves.Add(move);
    }

    public void Seal(RunRecord record, Trace trace)
    {
        Take();
        Assert.Equal(trace.Count, Samples.Count);
        Sealed = record;
    }

    public void Dispose()
    {
    }

    private void Take()
    {
        _writes++;
        if (RefusesFrom > 0 && _writes >= RefusesFrom)
        {
            throw new JournalException("the disk is full", new IOException());
        }
    }
}
