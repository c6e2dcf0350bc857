using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Records.Canonical;
using Bench.Records.Database;
using Bench.Records.Integrity;
using Bench.Records.Keys;
using Bench.Records.Traces;
using Dapper;

namespace Bench.Records.Runs;

/// <summary>
/// Makes an open run a sealed one. First the trace file, whole under its own name; then, in one transaction, the record
/// joins the chain and the journal goes. Whoever dies before the commit leaves an open run with its journal; the trace
/// file is then written anew by whoever recovers it.
/// </summary>
internal sealed class RunSealer(StoreDatabase database, TraceFolder traces, Signing signing)
{
    /// <summary>Seals a run.</summary>
    /// <exception cref="StoreException">The store could not take it; the run stays open.</exception>
    public SealedRun Seal(RunRecord record, Trace trace)
    {
        string id = RunColumns.IdText(record.Start.Id);
        string canonical = Canonical(record, id);
        (string? file, string? sha256) = traces.Write(record.Start.Id, trace);
        SealedRun run = database.Write($"seal run {id}", connection =>
        {
            string previous = connection.ExecuteScalar<string?>("SELECT hash FROM run ORDER BY sequence DESC LIMIT 1") ?? "";
            string hash = Fingerprint.OfLink(canonical, sha256, previous);
            if (connection.Execute("DELETE FROM open_run WHERE id = @id", new { id }) != 1)
            {
                throw new StoreException($"cannot seal run {id}: it is no longer open; another process has recovered it (bench show {id})");
            }

            new RunRow(RunColumns.Of(record), canonical, file, sha256, previous, hash).Insert(connection);
            signing.Sign(connection, hash);
            return new SealedRun { Record = record, Hash = hash, PreviousHash = previous, TraceFile = file, TraceSha256 = sha256 };
        });
        database.Tidy();
        return run;
    }

    private static string Canonical(RunRecord record, string id)
    {
        try
        {
            return CanonicalJson.Write(record);
        }
        catch (ArgumentException e)
        {
            throw new StoreException($"cannot seal run {id}: its record holds a number that is not finite; report this as a defect ({e.Message})", e);
        }
    }
}
