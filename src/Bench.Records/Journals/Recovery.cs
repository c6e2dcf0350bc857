using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Records.Database;
using Bench.Records.Owners;
using Bench.Records.Runs;
using Bench.Records.Traces;
using Dapper;

namespace Bench.Records.Journals;

/// <summary>Finds open runs whose process is gone and seals what their journals hold.</summary>
internal sealed class Recovery(StoreDatabase database, RunSealer sealer, TraceFolder traces, IProcessTable processes, TimeProvider time)
{
    /// <summary>Recovers all there are, oldest first; one that fails does not keep the others from it.</summary>
    /// <exception cref="StoreException">The store can't be read or written; what was not recovered stays as it was.</exception>
    public IReadOnlyList<RunRecord> RecoverAll()
    {
        List<RunRecord> recovered = [];
        StoreException? failure = null;
        foreach (OpenRun open in Find().Where(open => !IsAlive(open) && Claim(open)))
        {
            try
            {
                recovered.Add(Recover(open));
            }
            catch (StoreException e)
            {
                failure ??= e;
            }
        }

        return failure is null ? recovered : throw failure;
    }

    private List<OpenRun> Find() => database.Read("look for unfinished runs", connection => connection.Query<OpenRun>(
        "SELECT id AS Id, start AS Start, owner_process AS OwnerProcess, owner_started AS OwnerStarted FROM open_run ORDER BY started_at, id").AsList());

    private bool IsAlive(OpenRun open) =>
        open is { OwnerProcess: { } id, OwnerStarted: { } started } && processes.IsRunning(new ProcessMark((int)id, started));

    /// <summary>Makes this process the owner, unless another was quicker: two that start together recover each run once.</summary>
    private bool Claim(OpenRun open) => database.Write("claim an unfinished run", connection => connection.Execute(
        """
        UPDATE open_run SET owner_process = @Id, owner_started = @Started
        WHERE id = @run AND owner_process IS @OwnerProcess AND owner_started IS @OwnerStarted
        """,
        new { processes.Self.Id, processes.Self.Started, run = open.Id, open.OwnerProcess, open.OwnerStarted })) == 1;

    private RunRecord Recover(OpenRun open)
    {
        try
        {
            Trace? written = Written(open);
            (RunRecord record, Trace trace) = database.Read(
                $"read the journal of run {open.Id}", connection => JournalReader.Read(connection, open.Id, open.Start, written, time.GetUtcNow()));
            sealer.Seal(record, trace);
            return record;
        }
        catch (Exception e)
        {
            Release(open);
            if (e is FormatException)
            {
                throw new StoreException(
                    $"cannot recover run {open.Id}: its journal in '{database.Path}' is damaged ({e.Message}); keep a copy of the data folder, "
                    + "run 'bench safe' and check the outputs by hand", e);
            }

            throw;
        }
    }

    /// <summary>The trace file that a sealing left behind which never came to its end; null when there is none that can be read.</summary>
    private Trace? Written(OpenRun open)
    {
        try
        {
            return Guid.TryParse(open.Id, out Guid id) && traces.Read(TraceFolder.NameOf(id)) is { } bytes ? TraceFile.Decode(bytes) : null;
        }
        catch (Exception e) when (e is FormatException or StoreException)
        {
            return null; // the journal has it too, and the file is written anew from it
        }
    }

    private void Release(OpenRun open)
    {
        try
        {
            database.Write("give up a run", connection => connection.Execute(
                "UPDATE open_run SET owner_process = NULL, owner_started = NULL WHERE id = @Id", new { open.Id }));
        }
        catch (StoreException)
        {
            // The first failure is the one to tell; the claim ends with this process.
        }
    }

    private sealed class OpenRun
    {
        public required string Id { get; init; }

        public required string Start { get; init; }

        public long? OwnerProcess { get; init; }

        public string? OwnerStarted { get; init; }
    }
}
