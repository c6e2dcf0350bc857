namespace Bench.Model.BenchFiles;

/// <summary>Which byte of a number in a frame comes first.</summary>
public enum ByteOrder
{
    /// <summary>The least significant.</summary>
    LowFirst,

    /// <summary>The most significant.</summary>
    HighFirst,
}
