using System.Diagnostics;

namespace Bench.Tests.Devices;

/// <summary>
/// Time that stands still while anything can run, then jumps to the next timer. One thread runs everything, so a test
/// under it is the same every time and waits for nothing.
/// </summary>
public sealed class SteppedTime : TimeProvider
{
    private readonly Pump _pump = new();
    private readonly List<Alarm> _alarms = [];
    private long _now;
    private long _order;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public TimeSpan Now => TimeSpan.FromTicks(_now);

    public override long GetTimestamp() => _now;

    public override DateTimeOffset GetUtcNow() => DateTimeOffset.UnixEpoch + Now;

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        Alarm alarm = new(this, callback, state);
        alarm.Change(dueTime, period);
        return alarm;
    }

    /// <summary>Runs a piece of work to its end.</summary>
    public void Run(Func<Task> work)
    {
        SynchronizationContext? before = SynchronizationContext.Current;
        SynchronizationContext.SetSynchronizationContext(_pump);
        try
        {
            Task task = work();
            while (!task.IsCompleted)
            {
                if (!_pump.TryRunOne() && !Step())
                {
                    throw new UnreachableException($"nothing left to run or wait for at {Now}");
                }
            }

            task.GetAwaiter().GetResult();
        }
        finally
        {
            SynchronizationContext.SetSynchronizationContext(before);
        }
    }

    private bool Step()
    {
        Alarm? next = _alarms.OrderBy(a => a.Due).ThenBy(a => a.Order).FirstOrDefault();
        if (next is null)
        {
            return false;
        }

        _alarms.Remove(next);
        _now = Math.Max(_now, next.Due);
        next.Ring();
        return true;
    }

    private sealed class Pump : SynchronizationContext
    {
        private readonly Queue<(SendOrPostCallback Call, object? State)> _queue = new();

        public override void Post(SendOrPostCallback d, object? state) => _queue.Enqueue((d, state));

        public bool TryRunOne()
        {
            if (!_queue.TryDequeue(out (SendOrPostCallback Call, object? State) next))
            {
                return false;
            }

            next.Call(next.State);
            return true;
        }
    }

    private sealed class Alarm(SteppedTime time, TimerCallback callback, object? state) : ITimer
    {
        public long Due { get; private set; }

        public long Order { get; private set; }

        public void Ring() => callback(state);

        public bool Change(TimeSpan dueTime, TimeSpan period)
        {
            time._alarms.Remove(this);
            if (dueTime != Timeout.InfiniteTimeSpan)
            {
                Due = time._now + dueTime.Ticks;
                Order = time._order++;
                time._alarms.Add(this);
            }

            return true;
        }

        public void Dispose() => time._alarms.Remove(this);

        public ValueTask DisposeAsync()
        {
            Dispose();
            return ValueTask.CompletedTask;
        }
    }
}
