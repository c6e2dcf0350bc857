using System.Runtime.CompilerServices;

namespace Bench.Devices.Buses;

/// <summary>
/// The one owner of a link. Whoever wants to use it waits in line: safety first, then positions of moving units, then
/// the rest; first come, first served within a class. A turn is never taken away, so an exchange on the wire always
/// ends before the next begins (a cancelled one would collide with its own late answer); a wait in line can be cancelled.
/// </summary>
/// <typeparam name="TClient">What speaks on the link.</typeparam>
public sealed class LinkOwner<TClient>
    where TClient : ILinkClient
{
    private readonly Lock _lock = new();
    private readonly Queue<PlaceInLine>[] _waiting = [new(), new(), new()];
    private readonly Stack<PlaceInLine> _unused = new();
    private bool _taken;

    /// <summary>Makes an owner.</summary>
    /// <param name="link">The link's name in the bench file.</param>
    /// <param name="client">The client on the link.</param>
    public LinkOwner(string link, TClient client)
    {
        Link = link;
        Client = client;
    }

    /// <summary>The link's name in the bench file.</summary>
    public string Link { get; }

    internal TClient Client { get; }

    /// <summary>Waits for a turn.</summary>
    /// <exception cref="OperationCanceledException">Cancelled while in line; no turn was taken.</exception>
    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    public async ValueTask<LinkTurn<TClient>> TakeTurnAsync(BusClass line, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        PlaceInLine? place = null;
        lock (_lock)
        {
            if (_taken)
            {
                place = _unused.TryPop(out PlaceInLine? unused) ? unused : new PlaceInLine();
                _waiting[(int)line].Enqueue(place);
            }

            _taken = true;
        }

        if (place is not null)
        {
            CancellationTokenRegistration given = cancel.UnsafeRegister(static (p, token) => ((PlaceInLine)p!).Leave(token), place);
            try
            {
                await place.Turn;
            }
            finally
            {
                await given.DisposeAsync();
            }

            Keep(place); // only now: until the token has let go of it, it could still make its next user leave
        }

        try
        {
            await Client.ReadyAsync(cancel);
            return new LinkTurn<TClient>(this);
        }
        catch
        {
            Release();
            throw;
        }
    }

    internal void Release()
    {
        lock (_lock)
        {
            foreach (Queue<PlaceInLine> line in _waiting)
            {
                while (line.TryDequeue(out PlaceInLine? next))
                {
                    // False: it was cancelled while it stood in line.
                    if (next.TryGive())
                    {
                        return;
                    }
                }
            }

            _taken = false;
        }
    }

    private void Keep(PlaceInLine place)
    {
        place.Renew();
        lock (_lock)
        {
            _unused.Push(place);
        }
    }
}
