using Bench.Devices.Modbus.Client;

namespace Bench.Devices.Buses;

/// <summary>The right to use a link until disposed, once. The wire is quiet and the next frame may begin at once.</summary>
public readonly record struct BusTurn : IDisposable
{
    private readonly BusOwner _owner;

    internal BusTurn(BusOwner owner)
    {
        _owner = owner;
    }

    /// <summary>The client to use during this turn.</summary>
    public IModbusClient Client => _owner.Client;

    /// <summary>Hands the link to the next in line.</summary>
    public void Dispose() => _owner.Release();
}
