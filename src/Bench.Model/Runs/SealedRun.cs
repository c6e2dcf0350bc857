using Bench.Model.Entries;
using Bench.Model.Returns;

namespace Bench.Model.Runs;

/// <summary>A run as the store keeps it.</summary>
public sealed record SealedRun
{
    /// <summary>The record.</summary>
    public required RunRecord Record { get; init; }

    /// <summary>SHA-256 over the record's canonical JSON, the trace's hash and <see cref="PreviousHash"/>, lower-case hexadecimal.</summary>
    public required string Hash { get; init; }

    /// <summary>Hash of the run sealed before it in the same store; empty for the first.</summary>
    public required string PreviousHash { get; init; }

    /// <summary>Name of the trace file within the data folder; null when the run has no samples.</summary>
    public string? TraceFile { get; init; }

    /// <summary>SHA-256 of the trace file's bytes; null when there is none.</summary>
    public string? TraceSha256 { get; init; }

    /// <summary>Signature of the bench's key under the hash; null when it was sealed without a key.</summary>
    public KeySignature? Signature { get; init; }

    /// <summary>What was said of it after it was sealed, oldest first.</summary>
    public IReadOnlyList<SealedEntry> Entries { get; init; } = [];

    /// <summary>The return as it stands after corrections.</summary>
    public UnitReturn Return => CorrectedReturn.Of(Record.Start.Return, Entries);
}
