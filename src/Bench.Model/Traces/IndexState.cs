namespace Bench.Model.Traces;

/// <summary>State of the index input in a sample.</summary>
public enum IndexState : byte
{
    /// <summary>Not read in this sample, or the bench has none.</summary>
    NotSampled = 0,

    /// <summary>The input is open.</summary>
    Open = 1,

    /// <summary>The input is closed: the shaft stands within the index arc.</summary>
    Closed = 2,
}
