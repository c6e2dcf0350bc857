namespace Bench.Model.BenchFiles;

/// <summary>The four tables of the Modbus data model (Application Protocol V1.1b3, 4.3), and none.</summary>
public enum RegisterTable
{
    /// <summary>Single bits, read and write.</summary>
    Coil,

    /// <summary>Single bits, read only.</summary>
    DiscreteInput,

    /// <summary>16-bit words, read and write.</summary>
    HoldingRegister,

    /// <summary>16-bit words, read only.</summary>
    InputRegister,

    /// <summary>No table: the device is asked by text, <see cref="Channel.Text"/>.</summary>
    None,
}
