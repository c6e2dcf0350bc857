namespace Bench.Devices.Modbus.Values;

/// <summary>What the bits of one or two registers mean.</summary>
public enum ValueKind
{
    /// <summary>One register, 0 to 65535.</summary>
    Unsigned16,

    /// <summary>One register, two's complement.</summary>
    Signed16,

    /// <summary>Two registers, 0 to 4294967295.</summary>
    Unsigned32,

    /// <summary>Two registers, two's complement.</summary>
    Signed32,

    /// <summary>Two registers, IEEE 754 binary32.</summary>
    Float32,
}
