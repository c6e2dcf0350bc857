namespace Bench.Simulation.Time;

/// <summary>Queue of continuations that one thread runs in order of arrival.</summary>
internal sealed class Pump : SynchronizationContext
{
    private readonly Queue<(SendOrPostCallback Callback, object? State)> _ready = new();
    private readonly Lock _lock = new();
    private readonly Queue<(SendOrPostCallback Callback, object? State)> _foreign = new();
    private volatile bool _hasForeign;
    private int _thread;

    internal long ForeignPosts { get; private set; }

    public override void Post(SendOrPostCallback d, object? state)
    {
        if (Environment.CurrentManagedThreadId == _thread)
        {
            _ready.Enqueue((d, state));
            return;
        }

        lock (_lock)
        {
            _foreign.Enqueue((d, state));
            ForeignPosts++;
            _hasForeign = true;
        }
    }

    public override void Send(SendOrPostCallback d, object? state)
    {
        if (Environment.CurrentManagedThreadId != _thread)
        {
            throw new NotSupportedException("virtual time takes no blocking calls from another thread; post instead");
        }

        d(state);
    }

    public override SynchronizationContext CreateCopy() => this;

    internal void Own(int thread) => _thread = thread;

    /// <summary>Runs the oldest piece of work; false when there is none.</summary>
    internal bool RunOne()
    {
        if (_hasForeign)
        {
            TakeForeign();
        }

        if (!_ready.TryDequeue(out (SendOrPostCallback Callback, object? State) work))
        {
            return false;
        }

        work.Callback(work.State);
        return true;
    }

    private void TakeForeign()
    {
        lock (_lock)
        {
            while (_foreign.TryDequeue(out (SendOrPostCallback Callback, object? State) work))
            {
                _ready.Enqueue(work);
            }

            _hasForeign = false;
        }
    }
}
