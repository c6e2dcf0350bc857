namespace Bench.Records.Outboxes;

/// <summary>A sealed run or an entry that a hub has not got yet.</summary>
/// <param name="Sequence">Its place in the queue.</param>
/// <param name="Run">Id of the run; null for an entry.</param>
/// <param name="Entry">Number of the entry in its chain; null for a run.</param>
/// <param name="Hash">Its hash in the chain: the same item sent twice is known by it.</param>
/// <param name="Text">The canonical JSON.</param>
/// <param name="Attempts">How often sending failed.</param>
/// <param name="LastError">Why it failed last; null when it was not tried.</param>
public sealed record OutboxItem(long Sequence, Guid? Run, long? Entry, string Hash, string Text, int Attempts, string? LastError);
