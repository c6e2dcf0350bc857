namespace Bench.Tests.Running;

/// <summary>A clock whose wall time somebody sets; its timers and time stamps go on as before.</summary>
internal sealed class SteppedClock(TimeProvider inner) : TimeProvider
{
    public TimeSpan SetBy { get; set; }

    public override long TimestampFrequency => inner.TimestampFrequency;

    public override TimeZoneInfo LocalTimeZone => inner.LocalTimeZone;

    public override DateTimeOffset GetUtcNow() => inner.GetUtcNow() + SetBy;

    public override long GetTimestamp() => inner.GetTimestamp();

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) =>
        inner.CreateTimer(callback, state, dueTime, period);
}
