using System.Threading.Tasks.Sources;

namespace Bench.Devices.Links;

/// <summary>
/// Where bytes wait between a channel's own thread and the link's one reader. Keeps arrivals while nobody reads, so a
/// cancelled read loses none. Allocates nothing per read.
/// </summary>
public sealed class ByteInbox : IValueTaskSource<int>
{
    /// <summary>Bytes kept for a reader that does not come; later ones are dropped, as a receiver's buffer would.</summary>
    public const int Capacity = 4096;

    private readonly Lock _lock = new();
    private readonly byte[] _stored = new byte[Capacity];
    private int _count;
    private bool _ended;
    private string? _lost;
    private bool _waiting;
    private Memory<byte> _wanted;
    private CancellationTokenRegistration _given;
    private ManualResetValueTaskSourceCore<int> _read = new() { RunContinuationsAsynchronously = true };

    /// <summary>Whether a read would return at once: bytes are stored, or no more will come.</summary>
    public bool HasSomething
    {
        get
        {
            lock (_lock)
            {
                return _count > 0 || _ended;
            }
        }
    }

    /// <summary>Takes bytes that arrived.</summary>
    public void Put(ReadOnlySpan<byte> bytes)
    {
        lock (_lock)
        {
            int kept = Math.Min(bytes.Length, Capacity - _count);
            bytes[..kept].CopyTo(_stored.AsSpan(_count));
            _count += kept;
            Wake_NeedsLock();
        }
    }

    /// <summary>Says that no more will come.</summary>
    /// <param name="lost">Why, when the channel was lost rather than closed by the other end.</param>
    public void End(string? lost = null)
    {
        lock (_lock)
        {
            if (!_ended)
            {
                _ended = true;
                _lost = lost;
                Wake_NeedsLock();
            }
        }
    }

    /// <summary>Forgets what has arrived.</summary>
    public void Clear()
    {
        lock (_lock)
        {
            _count = 0;
        }
    }

    /// <summary>Waits for at least one byte; as <see cref="ILink.ReadAsync"/>. One read at a time.</summary>
    public ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        lock (_lock)
        {
            if (_waiting)
            {
                throw new InvalidOperationException("a read is already waiting; a link has one reader");
            }

            if (_count > 0)
            {
                return new ValueTask<int>(Take_NeedsLock(buffer.Span));
            }

            if (_ended)
            {
                return _lost is null ? new ValueTask<int>(0) : ValueTask.FromException<int>(new IOException(_lost));
            }

            _read.Reset();
            _waiting = true;
            _wanted = buffer;
        }

        // Outside the lock: a token cancelled meanwhile calls back at once.
        CancellationTokenRegistration given = cancel.UnsafeRegister(static (inbox, token) => ((ByteInbox)inbox!).Cancel(token), this);
        lock (_lock)
        {
            _given = given;
        }

        return new ValueTask<int>(this, _read.Version);
    }

    int IValueTaskSource<int>.GetResult(short token)
    {
        CancellationTokenRegistration given;
        lock (_lock)
        {
            given = _given;
            _given = default;
        }

        given.Dispose();
        return _read.GetResult(token);
    }

    ValueTaskSourceStatus IValueTaskSource<int>.GetStatus(short token) => _read.GetStatus(token);

    void IValueTaskSource<int>.OnCompleted(
        Action<object?> continuation, object? state, short token, ValueTaskSourceOnCompletedFlags flags) =>
        _read.OnCompleted(continuation, state, token, flags);

    private void Cancel(CancellationToken token)
    {
        lock (_lock)
        {
            if (_waiting)
            {
                _waiting = false;
                _read.SetException(new OperationCanceledException(token));
            }
        }
    }

    private void Wake_NeedsLock()
    {
        if (!_waiting)
        {
            return;
        }

        _waiting = false;
        if (_count > 0)
        {
            _read.SetResult(Take_NeedsLock(_wanted.Span));
        }
        else if (_lost is null)
        {
            _read.SetResult(0);
        }
        else
        {
            _read.SetException(new IOException(_lost));
        }
    }

    private int Take_NeedsLock(Span<byte> buffer)
    {
        int taken = Math.Min(buffer.Length, _count);
        _stored.AsSpan(0, taken).CopyTo(buffer);
        _stored.AsSpan(taken, _count - taken).CopyTo(_stored);
        _count -= taken;
        return taken;
    }
}
