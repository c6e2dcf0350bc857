namespace Bench.Devices.Discovery;

/// <summary>How a device that was found answered.</summary>
public enum DiscoveredAnswer
{
    /// <summary>With a value.</summary>
    Value,

    /// <summary>With an exception: it is there, and has no such register.</summary>
    Refusal,

    /// <summary>With something damaged: two devices at one address, another setting, or a bad line.</summary>
    Damaged,
}
