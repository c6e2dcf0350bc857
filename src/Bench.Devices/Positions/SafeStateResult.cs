using Bench.Model.Instruments;

namespace Bench.Devices.Positions;

/// <summary>Whether one position's outputs are off, by read-back.</summary>
/// <param name="Position">The position's name.</param>
/// <param name="State">What the board says its outputs are; null when it could not be asked.</param>
/// <param name="Fault">What went wrong; null when nothing did.</param>
public sealed record SafeStateResult(string Position, DriveState? State, DeviceFault? Fault)
{
    /// <summary>Whether the outputs are known to be off.</summary>
    public bool ConfirmedOff => State == DriveState.Off;
}
