using Bench.Simulation.Chance;

namespace Bench.Simulation.Mismatch;

/// <summary>What devices take longer to answer than the ordinary turnaround: a part that drifts, and at times much more.</summary>
public sealed class Turnarounds
{
    private readonly TimeProvider _time;
    private readonly SeededRandom _random;
    private readonly double _driftS;
    private readonly double _periodS;
    private readonly double _longShare;

    /// <summary>Draws how.</summary>
    /// <param name="time">Clock.</param>
    /// <param name="random">Chance, its own.</param>
    public Turnarounds(TimeProvider time, SeededRandom random)
    {
        ArgumentNullException.ThrowIfNull(time);
        ArgumentNullException.ThrowIfNull(random);
        _time = time;
        _random = random;
        _driftS = random.Between(0.0, 0.002);
        _periodS = random.Between(30.0, 300.0);
        _longShare = random.Between(0.001, 0.005);
    }

    /// <summary>What the next answer is late by; always well within the devices' time-out.</summary>
    public TimeSpan Next()
    {
        double turns = _time.GetTimestamp() / (double)_time.TimestampFrequency / _periodS;
        double late = _driftS * 0.5 * (1.0 + Math.Sin(2.0 * Math.PI * (turns - Math.Floor(turns))));
        if (_random.Happens(_longShare))
        {
            late += _random.Between(0.005, 0.025);
        }

        return TimeSpan.FromSeconds(late);
    }
}
