namespace Bench.Model.Entries;

/// <summary>Something said after a run was sealed. The sealed record stays as it is; entries join a chain of their own and none is ever changed.</summary>
public abstract record StoreEntry
{
    /// <summary>What it says.</summary>
    public abstract EntryKind Kind { get; }

    /// <summary>The run it speaks of; null when it speaks of the bench.</summary>
    public Guid? Run { get; init; }

    /// <summary>When it was made.</summary>
    public required DateTimeOffset MadeAt { get; init; }
}
