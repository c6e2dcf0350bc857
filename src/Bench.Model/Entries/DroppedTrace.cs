namespace Bench.Model.Entries;

/// <summary>The trace file of a run was dropped by policy. The run's record and the hash of the trace stay.</summary>
public sealed record DroppedTrace : StoreEntry
{
    /// <inheritdoc/>
    public override EntryKind Kind => EntryKind.DroppedTrace;

    /// <summary>The file, relative to the data folder.</summary>
    public required string TraceFile { get; init; }

    /// <summary>SHA-256 of the file: a copy kept elsewhere is known by it.</summary>
    public required string TraceSha256 { get; init; }

    /// <summary>The policy: traces of runs that began more than so many days before may go; 1 or more.</summary>
    public required int OlderThanDays { get; init; }

    /// <summary>Why.</summary>
    public required string Because { get; init; }

    /// <summary>Name of who dropped it.</summary>
    public required string By { get; init; }
}
