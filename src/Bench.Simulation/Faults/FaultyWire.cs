using Bench.Simulation.Benches;
using Bench.Simulation.Chance;

namespace Bench.Simulation.Faults;

/// <summary>
/// Stands before one direction of a link and does to its frames what a plan says. Frames it holds back keep their
/// order, as in a buffer or a stream, save a serial device's late answers, which other devices' answers overtake.
/// </summary>
internal sealed class FaultyWire : IWire
{
    private const int LeastLateMs = 41;
    private const int MostLateMs = 150;
    private const int MostPauseMs = 30;
    private const int MostSlowMs = 60;

    private readonly TimeProvider _time;
    private readonly WireFaults _faults;
    private readonly IWire _inner;
    private readonly WireSide _side;
    private readonly SeededRandom _random;
    private readonly ITimer _timer;
    private readonly Queue<byte[]> _held = new();
    private readonly List<ITimer> _late = [];
    private readonly int[] _hits;
    private byte[] _waiting = [];
    private double _heldUntilS;
    private bool _holds;
    private bool _gone;

    internal FaultyWire(TimeProvider time, WireFaults faults, WireSide side, IWire inner)
    {
        _time = time;
        _faults = faults;
        _side = side;
        _inner = inner;
        _random = faults.Random.Fork($"{side}");
        _hits = new int[faults.All.Count];
        _timer = time.CreateTimer(static wire => ((FaultyWire)wire!).Release(), this, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }

    /// <summary>Where a half-duplex adapter's own sending is heard; null on the answers' side.</summary>
    internal IWire? Ear { get; init; }

    public void Dispose()
    {
        _gone = true;
        _timer.Dispose();
        foreach (ITimer late in _late)
        {
            late.Dispose();
        }

        _inner.Dispose();
    }

    public void Send(ReadOnlySpan<byte> frame)
    {
        if (_side == WireSide.Requests)
        {
            _faults.Request(frame);
        }

        bool plain = !_holds && _waiting.Length == 0;
        if (plain && !_faults.AnyAt(NowS))
        {
            _inner.Send(frame);
            return;
        }

        byte[] bytes = [.. _waiting, .. frame];
        _waiting = [];
        for (int i = 0; i < _faults.All.Count; i++)
        {
            Fault fault = _faults.All[i];
            if (!Hits(fault, i, frame))
            {
                continue;
            }

            if (Befall(fault, ref bytes))
            {
                return;
            }
        }

        Pass(bytes);
    }

    private double NowS => _time.GetTimestamp() / (double)_time.TimestampFrequency;

    private bool Hits(Fault fault, int index, ReadOnlySpan<byte> frame)
    {
        double now = NowS;
        if (now < fault.AtS || now >= fault.EndS || _hits[index] >= fault.MostHits || !_faults.Concerns(fault, _side, frame))
        {
            return false;
        }

        bool all = fault.Kind is FaultKind.Echo or FaultKind.HalfOpen or FaultKind.SlowPeer;
        if (!all && !_random.Happens(fault.Share))
        {
            return false;
        }

        _hits[index] += all ? 0 : 1;
        _faults.Hit(frame);
        return true;
    }

    // True when nothing is left to send now.
    private bool Befall(Fault fault, ref byte[] bytes)
    {
        switch (fault.Kind)
        {
            case FaultKind.Lost or FaultKind.HalfOpen:
                return true;
            case FaultKind.BitFlipped or FaultKind.FeedbackGarbled:
                bytes[_random.Whole(0, bytes.Length - 1)] ^= (byte)(1 << _random.Whole(0, 7));
                return false;
            case FaultKind.Doubled:
                Pass(bytes);
                return false;
            case FaultKind.Split when bytes.Length > 1:
                int cut = _random.Whole(1, bytes.Length - 1);
                Pass(bytes[..cut]);
                bytes = bytes[cut..];
                Hold(_random.Between(1.0, MostPauseMs));
                return false;
            case FaultKind.Merged:
                _waiting = bytes;
                return true;
            case FaultKind.Late when _side == WireSide.Answers && !_faults.InOrder:
                Overtaken(bytes, _random.Between(LeastLateMs, MostLateMs));
                return true;
            case FaultKind.Late:
                Hold(_random.Between(LeastLateMs, MostLateMs));
                return false;
            case FaultKind.SlowPeer:
                Hold(fault.Share * MostSlowMs * _random.Between(0.9, 1.1));
                return false;
            case FaultKind.Foreign:
                Pass(_side == WireSide.Requests ? _faults.Foreign.Request() : _faults.Foreign.Heard());
                return false;
            case FaultKind.Echo:
                Ear?.Send(bytes);
                return false;
            case FaultKind.Noise:
                bytes = Noisy(bytes);
                return false;
            case FaultKind.WrongParity:
                bytes = [.. bytes.Where(_ => !_random.Happens(0.15)).Select(b => _random.Happens(0.15) ? (byte)0 : b)];
                return bytes.Length == 0;
            default:
                return false;
        }
    }

    private byte[] Noisy(byte[] bytes)
    {
        byte[] noise = [.. Enumerable.Range(0, _random.Whole(1, 12)).Select(_ => (byte)_random.Whole(0, byte.MaxValue))];
        int at = _random.Whole(0, bytes.Length);
        return [.. bytes[..at], .. noise, .. bytes[at..]];
    }

    private void Pass(byte[] bytes)
    {
        if (_holds)
        {
            _held.Enqueue(bytes);
        }
        else
        {
            _inner.Send(bytes);
        }
    }

    private void Hold(double ms)
    {
        TimeSpan wait = TimeSpan.FromMilliseconds(ms);
        double until = NowS + wait.TotalSeconds;
        if (until > _heldUntilS)
        {
            _heldUntilS = until;
            _holds = true;
            _timer.Change(wait, Timeout.InfiniteTimeSpan);
        }
    }

    private void Release()
    {
        _holds = false;
        while (!_gone && _held.TryDequeue(out byte[]? bytes))
        {
            _inner.Send(bytes);
        }
    }

    private void Overtaken(byte[] bytes, double ms) =>
        _late.Add(_time.CreateTimer(
            _ =>
            {
                if (!_gone)
                {
                    _inner.Send(bytes);
                }
            },
            null,
            TimeSpan.FromMilliseconds(ms),
            Timeout.InfiniteTimeSpan));
}
