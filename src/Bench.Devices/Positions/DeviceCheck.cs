using Bench.Model.Instruments;

namespace Bench.Devices.Positions;

/// <summary>How one device answered a series of reads.</summary>
/// <param name="Device">The device's name.</param>
/// <param name="Link">The link's name.</param>
/// <param name="Address">Its Modbus address; 0 for a device that has none.</param>
/// <param name="Answered">Whether any answer came, a refusal included.</param>
/// <param name="Fault">The last fault; null when every read went well.</param>
/// <param name="Reads">Reads made.</param>
/// <param name="Errors">Reads that failed.</param>
/// <param name="RoundTripP50">Median round trip of good reads; null when there was none.</param>
/// <param name="RoundTripP99">The 99th percentile (nearest rank) of them.</param>
public sealed record DeviceCheck(
    string Device,
    string Link,
    int Address,
    bool Answered,
    DeviceFault? Fault,
    int Reads,
    int Errors,
    TimeSpan? RoundTripP50,
    TimeSpan? RoundTripP99)
{
    /// <summary>What it says it is; null when it does not say.</summary>
    public string? Identity { get; init; }

    /// <summary>Median of what it took to answer, milliseconds, the wire's time aside; null where that is not followed.</summary>
    public double? TurnaroundMs { get; init; }

    /// <summary>For a device that pushes frames: what became of them, with every one that was due as a read; null for one that is asked.</summary>
    public StreamDelivery? Stream { get; init; }
}
