namespace Bench.Model.BenchFiles;

/// <summary>Where on a device a value lives.</summary>
/// <param name="Device">Name of the device.</param>
/// <param name="Table">Which table.</param>
/// <param name="Address">Address in the table as sent on the wire, 0 to 65535.</param>
/// <param name="Bit">For a bit within a register, 0 (least) to 15; null for the whole.</param>
/// <param name="ActiveLow">For a bit: true when 0 means yes.</param>
public sealed record Channel(string Device, RegisterTable Table, int Address, int? Bit = null, bool ActiveLow = false);
