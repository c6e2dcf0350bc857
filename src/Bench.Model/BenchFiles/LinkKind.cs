namespace Bench.Model.BenchFiles;

/// <summary>Kinds of byte channel.</summary>
public enum LinkKind
{
    /// <summary>A serial port.</summary>
    Serial,

    /// <summary>A TCP connection.</summary>
    Tcp,
}
