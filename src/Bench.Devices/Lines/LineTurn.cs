namespace Bench.Devices.Lines;

/// <summary>The right to use a link that carries lines, until disposed, once.</summary>
public readonly record struct LineTurn : IDisposable
{
    private readonly LineOwner _owner;

    internal LineTurn(LineOwner owner)
    {
        _owner = owner;
    }

    /// <summary>The client to use during this turn.</summary>
    public LineClient Client => _owner.Client;

    /// <summary>Hands the link to the next in line.</summary>
    public void Dispose() => _owner.Release();
}
