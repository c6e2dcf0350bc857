namespace Bench.Model.BenchFiles;

/// <summary>What is spoken on a link.</summary>
public enum LinkProtocol
{
    /// <summary>Modbus RTU (over a serial port, or its frames over TCP).</summary>
    ModbusRtu,

    /// <summary>Modbus TCP (with MBAP header).</summary>
    ModbusTcp,
}
