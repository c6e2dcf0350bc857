namespace Bench.Records.Integrity;

/// <summary>A trace that was dropped by policy.</summary>
public sealed record TraceDrop
{
    /// <summary>Its run.</summary>
    public string Run { get; init; } = "";

    /// <summary>When, as the entry says it.</summary>
    public string MadeAt { get; init; } = "";

    /// <summary>Why.</summary>
    public string Because { get; init; } = "";

    /// <summary>Name of who dropped it.</summary>
    public string By { get; init; } = "";
}
