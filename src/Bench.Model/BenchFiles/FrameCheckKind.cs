namespace Bench.Model.BenchFiles;

/// <summary>What a frame ends with to show damage; taken over every byte before it.</summary>
public enum FrameCheckKind
{
    /// <summary>Nothing: damage is seen only at the sync bytes.</summary>
    None,

    /// <summary>One byte: the sum of the others, modulo 256.</summary>
    Sum8,

    /// <summary>Two bytes, low first: the CRC of Modbus (Modbus over Serial Line V1.02, 6.2.2).</summary>
    Crc16,
}
