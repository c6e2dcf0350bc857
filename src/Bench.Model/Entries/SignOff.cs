namespace Bench.Model.Entries;

/// <summary>A person's signature under a run and all entries made of it until then.</summary>
public sealed record SignOff : StoreEntry
{
    /// <inheritdoc/>
    public override EntryKind Kind => EntryKind.SignOff;

    /// <summary>Name.</summary>
    public required string Name { get; init; }

    /// <summary>Role, e.g. warranty analyst.</summary>
    public required string Role { get; init; }

    /// <summary>What is stated.</summary>
    public required string Statement { get; init; }

    /// <summary>Hash of the sealed run.</summary>
    public required string RunHash { get; init; }

    /// <summary>Hash of the last entry of the run before this one; null where there was none.</summary>
    public required string? LastEntryHash { get; init; }
}
