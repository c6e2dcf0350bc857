using Bench.Devices.Links;
using Bench.Simulation.Mismatch;

namespace Bench.Simulation.Benches;

/// <summary>One direction of a simulated link: bytes take their time on the wire, one frame after the other.</summary>
internal sealed class Wire : IWire
{
    private readonly TimeProvider _time;
    private readonly TimeSpan _characterTime;
    private readonly TimeSpan _delay;
    private readonly LineNoise? _noise;
    private readonly ByteInbox _to;
    private readonly ITimer _timer;
    private readonly Queue<(long Due, int Length)> _frames = new();
    private readonly Lock _lock = new();
    private byte[] _bytes = new byte[1024];
    private int _count;
    private long _busyUntil;
    private long _lastDue;

    /// <summary>Makes a wire.</summary>
    /// <param name="time">Clock.</param>
    /// <param name="characterTime">Time of one character.</param>
    /// <param name="delay">Time between the last character and the moment the other end has it.</param>
    /// <param name="noise">What happens to frames; null for nothing.</param>
    /// <param name="to">Where they arrive.</param>
    internal Wire(TimeProvider time, TimeSpan characterTime, TimeSpan delay, LineNoise? noise, ByteInbox to)
    {
        _time = time;
        _characterTime = characterTime;
        _delay = delay;
        _noise = noise;
        _to = to;
        _timer = time.CreateTimer(static wire => ((Wire)wire!).Deliver(), this, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }

    /// <summary>What frames arrive later by; null for nothing.</summary>
    internal Turnarounds? Later { get; init; }

    public void Dispose() => _timer.Dispose();

    public void Send(ReadOnlySpan<byte> frame)
    {
        lock (_lock)
        {
            long now = _time.GetTimestamp();
            _busyUntil = Math.Max(now, _busyUntil) + Timestamps(_characterTime * frame.Length);
            if (_count + frame.Length > _bytes.Length)
            {
                Array.Resize(ref _bytes, Math.Max(2 * _bytes.Length, _count + frame.Length));
            }

            Span<byte> sent = _bytes.AsSpan(_count, frame.Length);
            frame.CopyTo(sent);
            int arriving = _noise?.Pass(sent) ?? frame.Length;
            _count += arriving;

            // A late frame holds back those behind it; none overtakes.
            _lastDue = Math.Max(_lastDue, _busyUntil + Timestamps(_delay + (Later?.Next() ?? TimeSpan.Zero)));
            _frames.Enqueue((_lastDue, arriving));
            if (_frames.Count == 1)
            {
                Arm(now);
            }
        }
    }

    private void Deliver()
    {
        lock (_lock)
        {
            if (!_frames.TryDequeue(out (long Due, int Length) frame))
            {
                return;
            }

            if (frame.Length > 0)
            {
                _to.Put(_bytes.AsSpan(0, frame.Length));
                _count -= frame.Length;
                _bytes.AsSpan(frame.Length, _count).CopyTo(_bytes);
            }

            if (_frames.Count > 0)
            {
                Arm(_time.GetTimestamp());
            }
        }
    }

    private void Arm(long now)
    {
        // Rounded up: a frame is never early.
        long wait = Math.Max(0, _frames.Peek().Due - now);
        long ticks = (long)Math.Ceiling(wait * ((double)TimeSpan.TicksPerSecond / _time.TimestampFrequency));
        _timer.Change(TimeSpan.FromTicks(ticks), Timeout.InfiniteTimeSpan);
    }

    private long Timestamps(TimeSpan span) =>
        (long)(span.Ticks * ((double)_time.TimestampFrequency / TimeSpan.TicksPerSecond));
}
