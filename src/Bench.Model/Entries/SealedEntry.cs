namespace Bench.Model.Entries;

/// <summary>An entry as the store keeps it.</summary>
/// <param name="Sequence">Its number in the chain, from 1.</param>
/// <param name="Hash">SHA-256 over its canonical JSON and the hash of the entry before it, lower-case hexadecimal.</param>
/// <param name="Entry">The entry.</param>
public sealed record SealedEntry(long Sequence, string Hash, StoreEntry Entry);
