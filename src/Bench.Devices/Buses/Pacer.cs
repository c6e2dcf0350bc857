using System.Runtime.CompilerServices;
using Bench.Devices.Links;

namespace Bench.Devices.Buses;

/// <summary>
/// Beats on a fixed schedule, which never shifts, and says how late each beat was. A beat that is late by no more than the
/// slack is made at once; later ones are left out and counted.
/// </summary>
public sealed class Pacer : IDisposable
{
    private readonly TimeProvider _time;
    private readonly PreciseWait _wait;
    private readonly double _period;
    private readonly long _start;
    private readonly double _slack;
    private long _beat;

    /// <summary>Makes a pacer; its first beat is one period from now.</summary>
    /// <param name="time">Clock.</param>
    /// <param name="period">Time between beats; more than zero.</param>
    /// <param name="phase">By how much the whole schedule is later.</param>
    /// <param name="slack">How late a beat may be made; a period when not given.</param>
    public Pacer(TimeProvider time, TimeSpan period, TimeSpan phase = default, TimeSpan? slack = null)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(period, TimeSpan.Zero);
        _time = time;
        _wait = new PreciseWait(time);
        _period = period.TotalSeconds * time.TimestampFrequency;
        _slack = (slack ?? period).TotalSeconds * time.TimestampFrequency;
        _start = time.GetTimestamp() + (long)(phase.TotalSeconds * time.TimestampFrequency);
    }

    /// <summary>How late the latest beat was.</summary>
    public TimeSpan Lateness { get; private set; }

    /// <summary>Beats left out so far.</summary>
    public long Missed { get; private set; }

    /// <summary>Waits for the next beat.</summary>
    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder))]
    public async ValueTask NextAsync(CancellationToken cancel)
    {
        long oldest = (long)Math.Ceiling((_time.GetTimestamp() - _start - _slack) / _period);
        long next = Math.Max(_beat + 1, oldest);
        Missed += next - _beat - 1;
        _beat = next;
        long due = _start + (long)(_beat * _period);
        await _wait.UntilAsync(due, cancel);
        Lateness = _time.GetElapsedTime(due);
    }

    /// <inheritdoc/>
    public void Dispose() => _wait.Dispose();
}
