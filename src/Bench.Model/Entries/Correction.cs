using System.Text.Json.Serialization;

namespace Bench.Model.Entries;

/// <summary>A fact of the return set right, with who did it and why.</summary>
public sealed record Correction : StoreEntry
{
    /// <inheritdoc/>
    public override EntryKind Kind => EntryKind.Correction;

    /// <summary>The fact.</summary>
    public required CorrectedFact Fact { get; init; }

    /// <summary>Id of the item, where the fact is an answer of the arrival inspection; null otherwise.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Item { get; init; }

    /// <summary>What was held before, by the record or by an earlier correction; null where nothing was.</summary>
    public required string? Was { get; init; }

    /// <summary>What holds now; null where nothing does.</summary>
    public required string? To { get; init; }

    /// <summary>Why.</summary>
    public required string Because { get; init; }

    /// <summary>Name of who set it right.</summary>
    public required string By { get; init; }
}
