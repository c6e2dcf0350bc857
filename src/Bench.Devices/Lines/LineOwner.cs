using Bench.Devices.Buses;

namespace Bench.Devices.Lines;

/// <summary>
/// The one owner of a link that carries lines. Whoever wants to use it waits in line, as on a bus: safety first, then
/// positions of moving units, then the rest; first come, first served within a class. A turn is never taken away.
/// </summary>
public sealed class LineOwner
{
    private readonly Lock _lock = new();
    private readonly Queue<TaskCompletionSource>[] _waiting = [new(), new(), new()];
    private bool _taken;

    /// <summary>Makes an owner.</summary>
    /// <param name="link">The link's name in the bench file.</param>
    /// <param name="client">The client on the link.</param>
    public LineOwner(string link, LineClient client)
    {
        Link = link;
        Client = client;
    }

    /// <summary>The link's name in the bench file.</summary>
    public string Link { get; }

    internal LineClient Client { get; }

    /// <summary>Waits for a turn.</summary>
    /// <exception cref="OperationCanceledException">Cancelled while in line; no turn was taken.</exception>
    public async ValueTask<LineTurn> TakeTurnAsync(BusClass line, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        TaskCompletionSource? turn = null;
        lock (_lock)
        {
            if (_taken)
            {
                turn = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
                _waiting[(int)line].Enqueue(turn);
            }

            _taken = true;
        }

        if (turn is not null)
        {
            using CancellationTokenRegistration given = cancel.UnsafeRegister(
                static (t, token) => ((TaskCompletionSource)t!).TrySetCanceled(token), turn);
            await turn.Task;
        }

        return new LineTurn(this);
    }

    internal void Release()
    {
        lock (_lock)
        {
            foreach (Queue<TaskCompletionSource> line in _waiting)
            {
                while (line.TryDequeue(out TaskCompletionSource? next))
                {
                    // False: it was cancelled while it stood in line.
                    if (next.TrySetResult())
                    {
                        return;
                    }
                }
            }

            _taken = false;
        }
    }
}
