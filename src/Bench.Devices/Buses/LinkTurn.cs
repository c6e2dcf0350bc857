namespace Bench.Devices.Buses;

/// <summary>The right to use a link until disposed, once. The wire is quiet and the next exchange may begin at once.</summary>
/// <typeparam name="TClient">What speaks on the link.</typeparam>
public readonly record struct LinkTurn<TClient> : IDisposable
    where TClient : ILinkClient
{
    private readonly LinkOwner<TClient> _owner;

    internal LinkTurn(LinkOwner<TClient> owner)
    {
        _owner = owner;
    }

    /// <summary>The client to use during this turn.</summary>
    public TClient Client => _owner.Client;

    /// <summary>Hands the link to the next in line.</summary>
    public void Dispose() => _owner.Release();
}
