namespace Bench.Records;

/// <summary>What a write that has returned outlives.</summary>
public enum Durability
{
    /// <summary>A dead process, a dead computer, a pulled plug (SQLite synchronous FULL; files flushed to the disk).</summary>
    Full,

    /// <summary>A dead process, not a pulled plug (SQLite synchronous NORMAL). For simulated runs in virtual time.</summary>
    Relaxed,
}
