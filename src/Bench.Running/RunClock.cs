namespace Bench.Running;

/// <summary>Seconds since a run began, from a <see cref="TimeProvider"/>.</summary>
internal sealed class RunClock(TimeProvider time)
{
    private readonly long _start = time.GetTimestamp();
    private readonly DateTimeOffset _wallAtStart = time.GetUtcNow();

    public TimeProvider Provider => time;

    public double NowS => At(time.GetTimestamp());

    public double At(long timestamp) => (timestamp - _start) / (double)time.TimestampFrequency;

    /// <summary>Time since the run began; the wall clock does not move it.</summary>
    public TimeSpan Elapsed => time.GetElapsedTime(_start);

    /// <summary>How far the wall clock was set since the run began, negative for back; drift and corrections by slewing stay far below a second.</summary>
    public TimeSpan WallSetBy => time.GetUtcNow() - (_wallAtStart + Elapsed);

    /// <summary>Waits, as finely as the clock's timers can; Task.Delay would drop fractions of a millisecond.</summary>
    public async ValueTask WaitAsync(double seconds, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        if (seconds <= 0)
        {
            return;
        }

        TaskCompletionSource due = new();
        await using ITimer timer = time.CreateTimer(static s => ((TaskCompletionSource)s!).TrySetResult(), due, TimeSpan.FromSeconds(seconds), Timeout.InfiniteTimeSpan);
        await using CancellationTokenRegistration stop = cancel.Register(static s => ((TaskCompletionSource)s!).TrySetCanceled(), due);
        await due.Task;
    }
}
