using Bench.Model.Instruments;

namespace Bench.Devices.Positions;

/// <summary>What became of switching one programmable supply.</summary>
/// <param name="Device">The supply's name.</param>
/// <param name="On">Whether its output is on, by read-back; null when that is not known.</param>
/// <param name="Fault">What went wrong; null when nothing did.</param>
public sealed record SupplyState(string Device, bool? On, DeviceFault? Fault);
