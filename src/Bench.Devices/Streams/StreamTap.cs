using System.Runtime.CompilerServices;

namespace Bench.Devices.Streams;

/// <summary>One consumer's place in a stream. What it does not take in time is dropped, oldest first, and counted; before its first reading it takes nothing.</summary>
internal sealed class StreamTap(StreamDevice device)
{
    private long _failed;
    private long _next = -1;

    /// <summary>The device.</summary>
    public StreamDevice Device => device;

    /// <summary>The newest frame, read before or not; waits for one where the stream is silent.</summary>
    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    public async ValueTask<StreamFrame> ReadAsync(double[] values, CancellationToken cancel)
    {
        (StreamFrame frame, long end) = await device.NewestAsync(_failed, values, cancel);
        _failed = frame.Fault is null ? _failed : device.Now;
        if (_next < 0 && frame.Fault is null)
        {
            _next = end - 1;
        }

        return frame;
    }

    /// <summary>The oldest frame not taken yet.</summary>
    public bool TryTake(double[] values, out StreamFrame frame)
    {
        frame = default;
        return _next >= 0 && device.TryCopy(ref _next, values, out frame);
    }
}
