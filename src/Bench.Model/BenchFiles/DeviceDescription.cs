using Bench.Model.Instruments;

namespace Bench.Model.BenchFiles;

/// <summary>A device on a link. What it speaks is its link's protocol.</summary>
public sealed record DeviceDescription
{
    /// <summary>Name, unique in the file.</summary>
    public required string Name { get; init; }

    /// <summary>Name of its link.</summary>
    public required string Link { get; init; }

    /// <summary>Modbus unit address, 1 to 247; 0 for a device that has none.</summary>
    public int Address { get; init; }

    /// <summary>Longest wait for an answer, or for a frame of a stream, milliseconds.</summary>
    public required double TimeoutMs { get; init; }

    /// <summary>The board's own watchdog; null where it has none.</summary>
    public WatchdogDescription? Watchdog { get; init; }

    /// <summary>For a programmable supply: voltage it is set to at start, volts; null for any other device.</summary>
    public double? SupplyVoltageV { get; init; }

    /// <summary>For a programmable supply: voltages that a run may set it to; null where it must be left at <see cref="SupplyVoltageV"/>.</summary>
    public SupplyRange? SupplyRange { get; init; }

    /// <summary>For a programmable supply: which of its outputs feeds the bench, from 1; null where it has one.</summary>
    public int? SupplyChannel { get; init; }

    /// <summary>For a device that speaks lines of text: how; null for any other device.</summary>
    public LineSyntax? Lines { get; init; }

    /// <summary>For a device that pushes frames: how they are made up; null for any other device.</summary>
    public StreamDescription? Stream { get; init; }
}
