namespace Bench.Model.BenchFiles;

/// <summary>Which of a value's two registers comes first. Modbus itself defines 16-bit registers only; both are in use.</summary>
public enum WordOrder
{
    /// <summary>The high word at the lower address, as the bytes within a register.</summary>
    HighFirst,

    /// <summary>The low word at the lower address.</summary>
    LowFirst,
}
