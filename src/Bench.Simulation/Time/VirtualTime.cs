namespace Bench.Simulation.Time;

/// <summary>
/// A clock that stands still while there is work and jumps to the next timer when there is none. All work of a run
/// happens on the one thread that calls <see cref="Run{T}"/>, in an order that depends on nothing outside, so one seed
/// fixes a run to the byte. One instance serves one run; two runs may go on two threads, each with its own instance.
/// </summary>
/// <remarks>
/// Timers that fall due at the same instant fire in the order in which they were set. Work posted from another thread
/// (a cancel from outside) is taken in, but its place in the order is then the outside's:
/// <see cref="PostsFromOtherThreads"/> counts it, and is 0 in a run that can be repeated.
/// </remarks>
public sealed class VirtualTime : TimeProvider
{
    /// <summary>Ticks of <see cref="GetTimestamp"/> per second: those of <see cref="TimeSpan"/>, 100 ns each.</summary>
    public const long TicksPerSecond = TimeSpan.TicksPerSecond;

    private readonly DateTimeOffset _start;
    private readonly TimerHeap _timers = new();
    private readonly Pump _pump = new();
    private long _now;
    private long _order;
    private bool _running;

    /// <summary>Makes a clock that stands at a date.</summary>
    public VirtualTime(DateTimeOffset start)
    {
        _start = start.ToUniversalTime();
    }

    /// <inheritdoc/>
    public override long TimestampFrequency => TicksPerSecond;

    /// <inheritdoc/>
    public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;

    /// <summary>Virtual time since the clock was made.</summary>
    public TimeSpan Elapsed => TimeSpan.FromTicks(_now);

    /// <summary>Pieces of work that came from another thread; 0 in a run that can be repeated to the byte.</summary>
    public long PostsFromOtherThreads => _pump.ForeignPosts;

    /// <inheritdoc/>
    public override long GetTimestamp() => _now;

    /// <inheritdoc/>
    public override DateTimeOffset GetUtcNow() => _start.AddTicks(_now);

    /// <inheritdoc/>
    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        ArgumentNullException.ThrowIfNull(callback);
        VirtualTimer timer = new(this, callback, state);
        timer.Change(dueTime, period);
        return timer;
    }

    /// <summary>Runs a piece of work to its end in virtual time, on the calling thread.</summary>
    /// <param name="main">The work. Timers it leaves behind stay set, for a later call.</param>
    /// <returns>What the work returned.</returns>
    /// <exception cref="VirtualTimeDeadlockException">The work waits, nothing is ready and no timer is set.</exception>
    /// <exception cref="InvalidOperationException">This clock is running already.</exception>
    public T Run<T>(Func<Task<T>> main)
    {
        ArgumentNullException.ThrowIfNull(main);
        if (_running)
        {
            throw new InvalidOperationException("this virtual time is running already; each run needs its own");
        }

        SynchronizationContext? outer = SynchronizationContext.Current;
        _running = true;
        _pump.Own(Environment.CurrentManagedThreadId);
        SynchronizationContext.SetSynchronizationContext(_pump);
        try
        {
            Task<T> task = main();
            while (!task.IsCompleted)
            {
                if (!_pump.RunOne() && !FireNext())
                {
                    throw new VirtualTimeDeadlockException(Elapsed);
                }
            }

            return task.GetAwaiter().GetResult();
        }
        finally
        {
            SynchronizationContext.SetSynchronizationContext(outer);
            _running = false;
        }
    }

    /// <summary>As <see cref="Run{T}"/>, for work without a result.</summary>
    public void Run(Func<Task> main)
    {
        ArgumentNullException.ThrowIfNull(main);
        _ = Run(async () =>
        {
            await main();
            return true;
        });
    }

    internal void Set(VirtualTimer timer, long due)
    {
        _timers.Remove(timer);
        timer.Due = due;
        timer.Order = _order++;
        _timers.Add(timer);
    }

    internal void Clear(VirtualTimer timer) => _timers.Remove(timer);

    private bool FireNext()
    {
        if (_timers.Count == 0)
        {
            return false;
        }

        VirtualTimer timer = _timers.TakeFirst();
        _now = Math.Max(_now, timer.Due);
        timer.Fire(_now);
        return true;
    }
}
