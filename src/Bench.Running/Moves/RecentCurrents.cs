namespace Bench.Running.Moves;

/// <summary>The latest current readings of a move, to say what the motor does when the count stands still.</summary>
internal sealed class RecentCurrents
{
    private const int Most = 64;
    private readonly Queue<(double TimeS, double CurrentA)> _readings = new();

    /// <summary>Forgets all.</summary>
    public void Clear() => _readings.Clear();

    /// <summary>Takes a reading.</summary>
    public void Add(double timeS, double currentA)
    {
        _readings.Enqueue((timeS, currentA));
        if (_readings.Count > Most)
        {
            _readings.Dequeue();
        }
    }

    /// <summary>Median of the readings since a time, amperes; 0 when there are none.</summary>
    public double MedianSince(double sinceS)
    {
        double[] values = [.. _readings.Where(r => r.TimeS >= sinceS).Select(r => r.CurrentA).Order()];
        return values.Length == 0 ? 0 : values[values.Length / 2];
    }
}
