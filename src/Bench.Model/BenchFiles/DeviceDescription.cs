namespace Bench.Model.BenchFiles;

/// <summary>A Modbus device on a link.</summary>
public sealed record DeviceDescription
{
    /// <summary>Name, unique in the file.</summary>
    public required string Name { get; init; }

    /// <summary>Name of its link.</summary>
    public required string Link { get; init; }

    /// <summary>Modbus unit address, 1 to 247.</summary>
    public required int Address { get; init; }

    /// <summary>Longest wait for an answer, milliseconds.</summary>
    public required double TimeoutMs { get; init; }

    /// <summary>The board's own watchdog; null where it has none.</summary>
    public WatchdogDescription? Watchdog { get; init; }
}
