namespace Bench.Model.BenchFiles;

/// <summary>What the bytes of a stream's field mean.</summary>
public enum FieldType
{
    /// <summary>One byte, 0 to 255.</summary>
    Uint8,

    /// <summary>Two bytes, 0 to 65535.</summary>
    Uint16,

    /// <summary>Two bytes, two's complement.</summary>
    Int16,

    /// <summary>Four bytes, two's complement.</summary>
    Int32,

    /// <summary>Four bytes, IEEE 754 binary32.</summary>
    Float32,
}
