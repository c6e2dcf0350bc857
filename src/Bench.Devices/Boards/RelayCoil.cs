using Bench.Devices.Buses;

namespace Bench.Devices.Boards;

/// <summary>One relay output.</summary>
/// <param name="Device">The board.</param>
/// <param name="Address">The coil's address on the wire.</param>
public sealed record RelayCoil(BusDevice Device, int Address)
{
    /// <summary>Whether both are on one board, side by side, so that one frame writes both.</summary>
    public bool IsBeside(RelayCoil other) => ReferenceEquals(Device, other.Device) && Math.Abs(Address - other.Address) == 1;
}
