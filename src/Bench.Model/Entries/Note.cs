namespace Bench.Model.Entries;

/// <summary>A person's remark on a run.</summary>
public sealed record Note : StoreEntry
{
    /// <inheritdoc/>
    public override EntryKind Kind => EntryKind.Note;

    /// <summary>The remark.</summary>
    public required string Text { get; init; }

    /// <summary>Name of who made it.</summary>
    public required string By { get; init; }
}
