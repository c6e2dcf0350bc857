using Bench.Devices.Links;

namespace Bench.Devices.Modbus.Client;

/// <summary>Keeps the silence between frames.</summary>
internal sealed class FrameGap(TimeProvider time, TimeSpan gap) : IDisposable
{
    private readonly PreciseWait _wait = new(time);
    private long _opens = long.MinValue;

    /// <summary>The gap.</summary>
    public TimeSpan Gap => gap;

    /// <summary>Says that the wire was last busy at an instant, and how long beyond the gap it must rest.</summary>
    public void Busy(long until, TimeSpan rest = default) => _opens = Math.Max(_opens, until + Ticks(gap + rest));

    /// <summary>Waits until the next frame may begin.</summary>
    public ValueTask KeepAsync(CancellationToken cancel) => _wait.UntilAsync(_opens, cancel);

    public void Dispose() => _wait.Dispose();

    private long Ticks(TimeSpan span) => (long)(span.TotalSeconds * time.TimestampFrequency);
}
