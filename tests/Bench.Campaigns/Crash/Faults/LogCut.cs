using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Records.Integrity;

namespace Bench.Campaigns.Crash.Faults;

/// <summary>
/// Something cuts bytes off the end of the write-ahead log after a crash. What was in them is gone whoever wrote them;
/// what must hold: the rest is a beginning of what was written, without a gap, and a sealed run that went with them is missed.
/// </summary>
internal sealed class LogCut(Folders folders, Random random) : IFault
{
    private const int Cuts = 12;

    /// <inheritdoc/>
    public string Name => "write-ahead log cut";

    /// <inheritdoc/>
    public FaultResult Try()
    {
        string folder = folders.New();
        Acknowledged acknowledged = new();
        RecordStore.Open(folder, TimeProvider.System).Dispose(); // the database file has its tables

        // A reader that stays keeps the log from being moved into the database, so that sealed runs are in it too.
        using (HeldReader.Of(folder))
        {
            using Child writer = Child.OfCampaign(acknowledged.Take, "crash-write", folder, "0", "1000", "2", "0");
            if (!writer.Says("sealed", times: 3))
            {
                writer.Succeed();
            }

            writer.KillAfter(TimeSpan.FromMilliseconds(random.Next(100)));
            Guid[] sealedRuns = [.. acknowledged.Runs.Where(r => r.Sealed).Select(r => r.Id)];
            List<string> lost = [], unnamed = [];
            string said = "";
            int short_ = 0;
            for (int i = 0; i < Cuts; i++)
            {
                string copy = folders.CopyOf(folder);
                string log = Path.Combine(copy, "bench.db-wal");
                using (FileStream stream = new(log, FileMode.Open))
                {
                    stream.SetLength(random.NextInt64(stream.Length));
                }

                using RecordStore store = RecordStore.Open(copy, TimeProvider.System);
                store.RecoverInterrupted();
                IReadOnlyList<IntegrityProblem> problems = store.Verify();
                SealedRun[] there = [.. store.List().Select(r => store.Find(r.Id.ToString())!)];
                lost.AddRange(there.SelectMany(r => Witness.Untrue(store, r)).Select(p => $"cut {i}: {p}"));
                lost.AddRange(problems.Where(p => p.Kind != IntegrityProblemKind.TraceWithoutRun).Select(p => $"cut {i}: {p.Text}"));
                foreach (Guid id in sealedRuns)
                {
                    SealedRun? run = there.FirstOrDefault(r => r.Record.Start.Id == id);
                    short_ += run?.Record.Outcome == RunOutcome.Judged ? 0 : 1;
                    if (run is null)
                    {
                        IntegrityProblem? named = problems.FirstOrDefault(p => p.Text.Contains(id.ToString(), StringComparison.Ordinal));
                        unnamed.AddRange(named is null ? [$"cut {i}: sealed run {id} is gone and 'verify' does not miss it"] : []);
                        said = named?.Text ?? said;
                    }
                    else if (run.Record.Outcome != RunOutcome.Judged && run.Record.Abort != AbortReason.HostDied)
                    {
                        unnamed.Add($"cut {i}: sealed run {id} came back as {run.Record.Outcome}");
                    }
                }
            }

            return new FaultResult($"{Cuts} cuts took {short_} sealings back, each missed by 'verify' or told in the record: {said}", lost, unnamed);
        }
    }
}
