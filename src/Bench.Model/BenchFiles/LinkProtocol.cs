namespace Bench.Model.BenchFiles;

/// <summary>What is spoken on a link.</summary>
public enum LinkProtocol
{
    /// <summary>Modbus RTU (over a serial port, or its frames over TCP).</summary>
    ModbusRtu,

    /// <summary>Modbus TCP (with MBAP header).</summary>
    ModbusTcp,

    /// <summary>SCPI: program messages and their answers, one line each (SCPI-1999, IEEE 488.2).</summary>
    Scpi,

    /// <summary>Lines of text that the bench file describes device by device.</summary>
    Lines,

    /// <summary>Frames of fixed length that one device pushes unasked; the bench file describes them.</summary>
    Stream,
}
