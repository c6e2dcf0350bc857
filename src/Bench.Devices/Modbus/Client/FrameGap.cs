using System.Runtime.InteropServices;

namespace Bench.Devices.Modbus.Client;

/// <summary>Keeps the silence between frames.</summary>
/// <remarks>
/// In real time a wait this short is slept on the calling thread: timers of the runtime are 2 ms late (they would
/// halve the rate at 115200 baud), nanosleep 0.1 ms. Under any other <see cref="TimeProvider"/> it is a timer of that provider.
/// </remarks>
internal sealed partial class FrameGap(TimeProvider time, TimeSpan gap)
{
    private static readonly TimeSpan LongestSleep = TimeSpan.FromMilliseconds(5);
    private long _opens = long.MinValue;

    /// <summary>The gap.</summary>
    public TimeSpan Gap => gap;

    /// <summary>Says that the wire was last busy at an instant, and how long beyond the gap it must rest.</summary>
    public void Busy(long until, TimeSpan rest = default) => _opens = Math.Max(_opens, until + Ticks(gap + rest));

    /// <summary>Waits until the next frame may begin.</summary>
    public async ValueTask KeepAsync(CancellationToken cancel)
    {
        for (long now = time.GetTimestamp(); now < _opens; now = time.GetTimestamp())
        {
            cancel.ThrowIfCancellationRequested();
            TimeSpan left = time.GetElapsedTime(now, _opens) + TimeSpan.FromTicks(1);
            if (ReferenceEquals(time, TimeProvider.System) && left <= LongestSleep && !OperatingSystem.IsWindows())
            {
                Timespec request = new() { Nanoseconds = (nint)(left.Ticks * TimeSpan.NanosecondsPerTick) };
                _ = Nanosleep(in request, 0);
            }
            else if (ReferenceEquals(time, TimeProvider.System) && left <= LongestSleep)
            {
                Thread.SpinWait(20);
            }
            else
            {
                await DelayAsync(left, cancel);
            }
        }
    }

    // Task.Delay cuts to whole milliseconds, which in virtual time would never reach the end.
    private async Task DelayAsync(TimeSpan left, CancellationToken cancel)
    {
        TaskCompletionSource reached = new(TaskCreationOptions.RunContinuationsAsynchronously);
        await using ITimer timer = time.CreateTimer(_ => reached.TrySetResult(), null, left, Timeout.InfiniteTimeSpan);
        using CancellationTokenRegistration given = cancel.Register(() => reached.TrySetCanceled(cancel));
        await reached.Task;
    }

    private long Ticks(TimeSpan span) => (long)(span.TotalSeconds * time.TimestampFrequency);

    [LibraryImport("libc", EntryPoint = "nanosleep")]
    private static partial int Nanosleep(in Timespec request, nint remaining);

    // Seconds and nanoseconds are both as wide as a pointer on the 64-bit systems this runs on.
    private struct Timespec
    {
        public nint Seconds;
        public nint Nanoseconds;
    }
}
