namespace Bench.Simulation.Time;

/// <summary>A timer of <see cref="VirtualTime"/>; it knows its own place in the heap, so that setting and clearing are cheap.</summary>
internal sealed class VirtualTimer : ITimer
{
    private readonly VirtualTime _time;
    private readonly TimerCallback _callback;
    private readonly object? _state;
    private long _period;
    private bool _disposed;

    internal VirtualTimer(VirtualTime time, TimerCallback callback, object? state)
    {
        _time = time;
        _callback = callback;
        _state = state;
    }

    /// <summary>When it falls due, in ticks of virtual time.</summary>
    internal long Due { get; set; }

    /// <summary>Place among timers due at the same instant.</summary>
    internal long Order { get; set; }

    /// <summary>Index in the heap; -1 when not set.</summary>
    internal int Slot { get; set; } = -1;

    /// <inheritdoc/>
    public bool Change(TimeSpan dueTime, TimeSpan period)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(dueTime, Timeout.InfiniteTimeSpan);
        ArgumentOutOfRangeException.ThrowIfLessThan(period, Timeout.InfiniteTimeSpan);
        if (_disposed)
        {
            return false;
        }

        _period = Math.Max(period.Ticks, 0);
        if (dueTime == Timeout.InfiniteTimeSpan)
        {
            _time.Clear(this);
        }
        else
        {
            _time.Set(this, _time.GetTimestamp() + dueTime.Ticks);
        }

        return true;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _disposed = true;
        _time.Clear(this);
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        Dispose();
        return ValueTask.CompletedTask;
    }

    /// <summary>Sets the next period, then calls back.</summary>
    internal void Fire(long now)
    {
        if (_period > 0)
        {
            _time.Set(this, now + _period);
        }

        _callback(_state);
    }
}
