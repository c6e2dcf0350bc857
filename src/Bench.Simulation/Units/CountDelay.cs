namespace Bench.Simulation.Units;

/// <summary>The count some steps ago: what electronics report that latch before they answer.</summary>
internal sealed class CountDelay
{
    private readonly int[] _counts;
    private int _next;

    internal CountDelay(int steps, int count)
    {
        _counts = new int[steps];
        Array.Fill(_counts, count);
    }

    /// <summary>The oldest count kept.</summary>
    internal int Oldest => _counts[_next];

    internal void Add(int count)
    {
        _counts[_next] = count;
        _next = (_next + 1) % _counts.Length;
    }

    /// <summary>As many steps of the same count.</summary>
    internal void Add(int count, long steps)
    {
        for (long i = Math.Min(steps, _counts.Length); i > 0; i--)
        {
            Add(count);
        }
    }
}
