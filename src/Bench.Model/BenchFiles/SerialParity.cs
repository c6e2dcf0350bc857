namespace Bench.Model.BenchFiles;

/// <summary>Parity of a serial link.</summary>
public enum SerialParity
{
    /// <summary>No parity bit.</summary>
    None,

    /// <summary>Even parity.</summary>
    Even,

    /// <summary>Odd parity.</summary>
    Odd,
}
