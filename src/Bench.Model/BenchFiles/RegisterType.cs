namespace Bench.Model.BenchFiles;

/// <summary>What the bits of one or two registers mean.</summary>
public enum RegisterType
{
    /// <summary>One register, 0 to 65535.</summary>
    Uint16,

    /// <summary>One register, two's complement.</summary>
    Int16,

    /// <summary>Two registers, 0 to 4294967295.</summary>
    Uint32,

    /// <summary>Two registers, two's complement.</summary>
    Int32,

    /// <summary>Two registers, IEEE 754 binary32.</summary>
    Float32,
}
