using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Records.Runs;

/// <summary>A sealed run as its row holds it.</summary>
/// <param name="Columns">What lists and searches need.</param>
/// <param name="Record">The record, canonical JSON.</param>
/// <param name="TraceFile">Name of its trace file within the data folder; null when it has none.</param>
/// <param name="TraceSha256">Hash of that file.</param>
/// <param name="PreviousHash">Hash of the row before; empty for the first.</param>
/// <param name="Hash">Hash of this one.</param>
internal sealed record RunRow(RunColumns Columns, string Record, string? TraceFile, string? TraceSha256, string PreviousHash, string Hash)
{
    /// <summary>Adds it at the end of the chain, within the transaction that found the hash before it.</summary>
    public void Insert(SqliteConnection connection) => connection.Execute(
        """
        INSERT INTO run (id, started_at, serial, family, simulated, outcome, disposition, claim, symptom, likeliest_cause,
            trace_file, trace_sha256, previous_hash, hash, record)
        VALUES (@Id, @StartedAt, @Serial, @Family, @Simulated, @Outcome, @Disposition, @Claim, @Symptom, @LikeliestCause,
            @TraceFile, @TraceSha256, @PreviousHash, @Hash, @Record)
        """,
        new
        {
            Columns.Id,
            Columns.StartedAt,
            Columns.Serial,
            Columns.Family,
            Columns.Simulated,
            Columns.Outcome,
            Columns.Disposition,
            Columns.Claim,
            Columns.Symptom,
            Columns.LikeliestCause,
            TraceFile,
            TraceSha256,
            PreviousHash,
            Hash,
            Record,
        });
}
