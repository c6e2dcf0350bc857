namespace Bench.Devices.Modbus.Client;

/// <summary>Cancels a read when an answer is overdue. One timer and, while answers come, one token serve all exchanges.</summary>
internal sealed class AnswerClock : IAsyncDisposable
{
    private readonly TimeProvider _time;
    private readonly ITimer _timer;
    private readonly Lock _lock = new();
    private CancellationTokenSource _overdue = new();
    private long _deadline = long.MaxValue;

    public AnswerClock(TimeProvider time)
    {
        _time = time;
        _timer = time.CreateTimer(_ => Rang(), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }

    /// <summary>Cancelled when a wait that was started is over. To be taken anew for each exchange.</summary>
    public CancellationToken Overdue
    {
        get
        {
            lock (_lock)
            {
                if (_overdue.IsCancellationRequested)
                {
                    _overdue.Dispose();
                    _overdue = new CancellationTokenSource();
                }

                return _overdue.Token;
            }
        }
    }

    /// <summary>Starts the wait for one answer; only needed once a read does not return at once.</summary>
    /// <param name="from">A timestamp of the clock.</param>
    /// <param name="longest">How long after that the answer is overdue.</param>
    public void Start(long from, TimeSpan longest)
    {
        lock (_lock)
        {
            TimeSpan left = longest - _time.GetElapsedTime(from);
            _deadline = from + (long)(longest.TotalSeconds * _time.TimestampFrequency);
            _timer.Change(left > TimeSpan.Zero ? left : TimeSpan.Zero, Timeout.InfiniteTimeSpan);
        }
    }

    /// <summary>Ends the wait.</summary>
    public void Stop()
    {
        lock (_lock)
        {
            if (_deadline == long.MaxValue)
            {
                return;
            }

            _deadline = long.MaxValue;
            _timer.Change(Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
        }
    }

    /// <summary>Ends the wait at once, because the caller gives up.</summary>
    public void GiveUp()
    {
        CancellationTokenSource overdue;
        lock (_lock)
        {
            overdue = _overdue;
        }

        overdue.Cancel();
    }

    public async ValueTask DisposeAsync()
    {
        await _timer.DisposeAsync();
        _overdue.Dispose();
    }

    private void Rang()
    {
        CancellationTokenSource overdue;
        lock (_lock)
        {
            long early = _deadline == long.MaxValue ? long.MaxValue : _deadline - _time.GetTimestamp();
            if (early == long.MaxValue)
            {
                return; // rang for an exchange that is over
            }

            if (early > 0)
            {
                // Timers cut to milliseconds, or rang for the exchange before: wait out the rest.
                double restMs = Math.Ceiling(1000.0 * early / _time.TimestampFrequency);
                _timer.Change(TimeSpan.FromMilliseconds(restMs), Timeout.InfiniteTimeSpan);
                return;
            }

            overdue = _overdue;
        }

        overdue.Cancel();
    }
}
