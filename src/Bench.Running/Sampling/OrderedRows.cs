using Bench.Model.Traces;

namespace Bench.Running.Sampling;

/// <summary>
/// Puts readings of several instruments into the order of their instants before they enter a trace. What is pushed is delivered
/// late and in batches; a row waits until every pushing instrument has told of a later instant.
/// </summary>
internal sealed class OrderedRows
{
    private readonly List<Sample> _waiting = [];
    private readonly Queue<(double TimeS, IndexState State)> _indices = [];

    /// <summary>Takes a row.</summary>
    public void Add(in Sample row)
    {
        int at = _waiting.Count;
        while (at > 0 && _waiting[at - 1].TimeS > row.TimeS)
        {
            at--;
        }

        _waiting.Insert(at, row);
    }

    /// <summary>
    /// Takes an index that was polled beside meters that are pushed: the meters' row nearest to it in time will bear it, so that
    /// at 1 kHz it is moved by half a millisecond at most and no current is made up for its own instant.
    /// </summary>
    public void AddIndex(double timeS, IndexState state) => _indices.Enqueue((timeS, state));

    /// <summary>Hands over the rows up to an instant, in order.</summary>
    /// <param name="trace">Takes them. A row older than its last, which came after it was released all the same, takes that one's instant.</param>
    /// <param name="untilS">The instant; infinite for all.</param>
    public void Release(Trace trace, double untilS)
    {
        while (_indices.TryPeek(out (double TimeS, IndexState State) index) && TryPlace(index.TimeS, index.State))
        {
            _indices.Dequeue();
        }

        int count = 0;
        while (count < _waiting.Count && _waiting[count].TimeS <= untilS)
        {
            Sample row = _waiting[count++];
            double lastS = trace.Count > 0 ? trace[trace.Count - 1].TimeS : row.TimeS;
            trace.Add(row.TimeS < lastS ? row with { TimeS = lastS } : row);
        }

        _waiting.RemoveRange(0, count);
    }

    // Once there is a row after it, the nearest is known.
    private bool TryPlace(double timeS, IndexState state)
    {
        int nearest = -1;
        for (int i = 0; i < _waiting.Count; i++)
        {
            if (!_waiting[i].HasMeters)
            {
                continue;
            }

            if (nearest < 0 || Math.Abs(_waiting[i].TimeS - timeS) < Math.Abs(_waiting[nearest].TimeS - timeS))
            {
                nearest = i;
            }

            if (_waiting[i].TimeS >= timeS)
            {
                _waiting[nearest] = _waiting[nearest] with { Index = state };
                return true;
            }
        }

        return false;
    }
}
