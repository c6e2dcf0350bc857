using System.Threading.Tasks.Sources;

namespace Bench.Devices.Buses;

/// <summary>One place in a bus's line. Used again after its turn was given; one that was left is not, because the line still holds it.</summary>
internal sealed class PlaceInLine : IValueTaskSource
{
    private const int Waiting = 0;
    private const int Over = 1;

    private ManualResetValueTaskSourceCore<bool> _turn = new() { RunContinuationsAsynchronously = true };
    private int _state;

    /// <summary>The wait; begun once per use.</summary>
    public ValueTask Turn => new(this, _turn.Version);

    /// <summary>Gives the turn.</summary>
    /// <returns>False when the place was left before.</returns>
    public bool TryGive()
    {
        if (Interlocked.CompareExchange(ref _state, Over, Waiting) != Waiting)
        {
            return false;
        }

        _turn.SetResult(true);
        return true;
    }

    /// <summary>Leaves the line, unless the turn was given already.</summary>
    public void Leave(CancellationToken why)
    {
        if (Interlocked.CompareExchange(ref _state, Over, Waiting) == Waiting)
        {
            _turn.SetException(new OperationCanceledException(why));
        }
    }

    /// <summary>Makes the place ready for its next use, after its turn was given.</summary>
    public void Renew()
    {
        _turn.Reset();
        _state = Waiting;
    }

    void IValueTaskSource.GetResult(short token) => _turn.GetResult(token);

    ValueTaskSourceStatus IValueTaskSource.GetStatus(short token) => _turn.GetStatus(token);

    void IValueTaskSource.OnCompleted(
        Action<object?> continuation, object? state, short token, ValueTaskSourceOnCompletedFlags flags) =>
        _turn.OnCompleted(continuation, state, token, flags);
}
