namespace Bench.Model.BenchFiles;

/// <summary>What ends a line of text.</summary>
public enum LineTerminator
{
    /// <summary>Carriage return and line feed.</summary>
    Crlf,

    /// <summary>Carriage return.</summary>
    Cr,

    /// <summary>Line feed.</summary>
    Lf,
}
