using Bench.Model.Judging;

namespace Bench.Model.Entries;

/// <summary>A judgement made of a sealed run after the run: by another profile, or by the same in a later version.</summary>
public sealed record LaterJudgement : StoreEntry
{
    /// <inheritdoc/>
    public override EntryKind Kind => EntryKind.Judgement;

    /// <summary>Version of the profile that judged.</summary>
    public required string ProfileVersion { get; init; }

    /// <summary>SHA-256 of that profile's file.</summary>
    public required string ProfileSha256 { get; init; }

    /// <summary>The judgement.</summary>
    public required Judgement Judgement { get; init; }
}
