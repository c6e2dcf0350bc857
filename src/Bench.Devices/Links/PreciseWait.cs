using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Threading.Tasks.Sources;

namespace Bench.Devices.Links;

/// <summary>Waits until an instant, without allocating. One wait at a time.</summary>
/// <remarks>
/// In real time the last milliseconds are slept on the calling thread: timers of the runtime are 2 ms late (they would
/// halve the rate at 115200 baud), nanosleep 0.1 ms. Under any other <see cref="TimeProvider"/> it is a timer of that provider.
/// </remarks>
public sealed partial class PreciseWait : IValueTaskSource, IDisposable
{
    /// <summary>Longest sleep on the calling thread.</summary>
    private static readonly TimeSpan LongestSleep = TimeSpan.FromMilliseconds(5);

    /// <summary>How long before the instant a timer of the runtime hands over to that sleep.</summary>
    private static readonly TimeSpan Early = TimeSpan.FromMilliseconds(4);

    private readonly TimeProvider _time;
    private readonly bool _real;
    private readonly ITimer _timer;
    private readonly Lock _lock = new();
    private ManualResetValueTaskSourceCore<bool> _rang = new() { RunContinuationsAsynchronously = true };
    private CancellationTokenRegistration _given;
    private bool _waiting;

    /// <summary>Makes a wait.</summary>
    public PreciseWait(TimeProvider time)
    {
        _time = time;
        _real = ReferenceEquals(time, TimeProvider.System);
        _timer = time.CreateTimer(static w => ((PreciseWait)w!).End(null), this, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }

    /// <summary>Waits until a timestamp of the clock; not at all when it has passed.</summary>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public ValueTask UntilAsync(long timestamp, CancellationToken cancel) =>
        _time.GetTimestamp() >= timestamp ? ValueTask.CompletedTask : WaitAsync(timestamp, cancel);

    /// <inheritdoc/>
    public void Dispose() => _timer.Dispose();

    void IValueTaskSource.GetResult(short token)
    {
        _given.Dispose();
        _given = default;
        _rang.GetResult(token);
    }

    ValueTaskSourceStatus IValueTaskSource.GetStatus(short token) => _rang.GetStatus(token);

    void IValueTaskSource.OnCompleted(
        Action<object?> continuation, object? state, short token, ValueTaskSourceOnCompletedFlags flags) =>
        _rang.OnCompleted(continuation, state, token, flags);

    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder))]
    private async ValueTask WaitAsync(long timestamp, CancellationToken cancel)
    {
        for (long now = _time.GetTimestamp(); now < timestamp; now = _time.GetTimestamp())
        {
            cancel.ThrowIfCancellationRequested();
            TimeSpan left = _time.GetElapsedTime(now, timestamp) + TimeSpan.FromTicks(1);
            if (!_real)
            {
                await RingAsync(left, cancel);
            }
            else if (left > LongestSleep)
            {
                await RingAsync(left - Early, cancel);
            }
            else if (OperatingSystem.IsWindows())
            {
                Thread.SpinWait(20);
            }
            else
            {
                Timespec request = new() { Nanoseconds = (nint)(left.Ticks * TimeSpan.NanosecondsPerTick) };
                _ = Nanosleep(in request, 0);
            }
        }
    }

    private ValueTask RingAsync(TimeSpan after, CancellationToken cancel)
    {
        _rang.Reset();
        _waiting = true;
        _given = cancel.UnsafeRegister(static (w, token) => ((PreciseWait)w!).End(new OperationCanceledException(token)), this);
        _timer.Change(after, Timeout.InfiniteTimeSpan);
        return new ValueTask(this, _rang.Version);
    }

    private void End(OperationCanceledException? cancelled)
    {
        lock (_lock)
        {
            if (!_waiting)
            {
                return; // rang for a wait that is over
            }

            _waiting = false;
        }

        if (cancelled is null)
        {
            _rang.SetResult(true);
        }
        else
        {
            _timer.Change(Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
            _rang.SetException(cancelled);
        }
    }

    [LibraryImport("libc", EntryPoint = "nanosleep")]
    private static partial int Nanosleep(in Timespec request, nint remaining);

    // Seconds and nanoseconds are both as wide as a pointer on the 64-bit systems this runs on.
    private struct Timespec
    {
        public nint Seconds;
        public nint Nanoseconds;
    }
}
