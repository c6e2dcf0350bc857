using Bench.Model.Entries;

namespace Bench.Cli.Output;

/// <summary>An entry as <c>--json</c> prints it: its place in the chain, its hash, and what it says with the keys of docs/records.md.</summary>
internal sealed record EntryJson(long Sequence, string Hash, object Entry)
{
    /// <summary>Of an entry.</summary>
    public static EntryJson Of(SealedEntry entry) => new(entry.Sequence, entry.Hash, entry.Entry);
}
