namespace Bench.Records.Integrity;

/// <summary>How much a store holds, and who signed it: what a check of the store speaks of.</summary>
public sealed record StoreContents
{
    /// <summary>Sealed runs.</summary>
    public required long Runs { get; init; }

    /// <summary>Entries.</summary>
    public required long Entries { get; init; }

    /// <summary>Sealed runs and entries without a signature.</summary>
    public required long Unsigned { get; init; }

    /// <summary>Keys and how much each has signed, in the order they were introduced.</summary>
    public required IReadOnlyList<KeyUse> Keys { get; init; }

    /// <summary>Traces dropped by policy.</summary>
    public required IReadOnlyList<TraceDrop> DroppedTraces { get; init; }

    /// <summary>Hash of the last sealed run; null when there is none. Kept elsewhere, it tells whether all of the store was made anew.</summary>
    public required string? LastRunHash { get; init; }

    /// <summary>Hash of the last entry; null when there is none.</summary>
    public required string? LastEntryHash { get; init; }
}
