namespace Bench.Devices.Modbus;

/// <summary>Sizes and quantities the specification allows (Application Protocol V1.1b3, sections 4.1 and 6).</summary>
public static class ModbusLimits
{
    /// <summary>Longest PDU, bytes (4.1).</summary>
    public const int MostPduBytes = 253;

    /// <summary>Longest serial frame: address, PDU, CRC, bytes (4.1).</summary>
    public const int MostRtuBytes = 256;

    /// <summary>Longest TCP frame: MBAP header and PDU, bytes (4.1).</summary>
    public const int MostTcpBytes = 260;

    /// <summary>Most coils or inputs in one read (6.1, 6.2).</summary>
    public const int MostBitsRead = 2000;

    /// <summary>Most registers in one read (6.3, 6.4, 6.17).</summary>
    public const int MostRegistersRead = 125;

    /// <summary>Most coils in one write (6.11).</summary>
    public const int MostCoilsWritten = 1968;

    /// <summary>Most registers in one write (6.12).</summary>
    public const int MostRegistersWritten = 123;

    /// <summary>Most registers written by function 17h (6.17).</summary>
    public const int MostRegistersWrittenWithRead = 121;

    /// <summary>The address every device on a serial line obeys and none answers (Serial Line V1.02, 2.2).</summary>
    public const int BroadcastAddress = 0;

    /// <summary>Greatest address of a device on a serial line (Serial Line V1.02, 2.2).</summary>
    public const int GreatestAddress = 247;
}
