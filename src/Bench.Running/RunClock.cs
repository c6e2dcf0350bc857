namespace Bench.Running;

/// <summary>Seconds since a run began, from a <see cref="TimeProvider"/>.</summary>
internal sealed class RunClock(TimeProvider time)
{
    private readonly long _start = time.GetTimestamp();

    public TimeProvider Provider => time;

    public double NowS => At(time.GetTimestamp());

    public double At(long timestamp) => (timestamp - _start) / (double)time.TimestampFrequency;

    public Task WaitAsync(double seconds, CancellationToken cancel) =>
        seconds > 0 ? Task.Delay(TimeSpan.FromSeconds(seconds), time, cancel) : Task.CompletedTask;
}
