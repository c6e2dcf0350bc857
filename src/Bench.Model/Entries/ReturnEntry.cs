using Bench.Model.Returns;

namespace Bench.Model.Entries;

/// <summary>A return as it was taken in. It speaks of no run: runs of it carry its hash.</summary>
public sealed record ReturnEntry : StoreEntry
{
    /// <inheritdoc/>
    public override EntryKind Kind => EntryKind.Return;

    /// <summary>Family of the profile whose form was filled in.</summary>
    public required string Family { get; init; }

    /// <summary>SHA-256 of that profile's file.</summary>
    public required string ProfileSha256 { get; init; }

    /// <summary>The return.</summary>
    public required UnitReturn Return { get; init; }
}
