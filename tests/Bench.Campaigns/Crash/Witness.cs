using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Records;
using Bench.Records.Canonical;

namespace Bench.Campaigns.Crash;

/// <summary>Holds a store against what it acknowledged and against what was written.</summary>
internal static class Witness
{
    /// <summary>Opens the folder, recovers what is unfinished and compares.</summary>
    /// <returns>What is lost, or there and not what was written; none when all is well.</returns>
    public static IReadOnlyList<string> Problems(string folder, Acknowledged acknowledged)
    {
        try
        {
            using RecordStore store = RecordStore.Open(folder, TimeProvider.System);
            store.RecoverInterrupted();
            return
            [
                .. store.Verify().Select(p => $"verify: {p.Text}"),
                .. store.List().Where(r => r.Open).Select(r => $"run {r.Serial} is still open after recovery"),
                .. acknowledged.Runs.SelectMany(r => Problems(store, r)),
            ];
        }
        catch (StoreException e)
        {
            return [$"the store can't be opened: {e.Message}"];
        }
    }

    /// <summary>What a sealed run holds that was never written so, complete or cut short.</summary>
    public static IEnumerable<string> Untrue(RecordStore store, SealedRun sealedRun)
    {
        RunRecord record = sealedRun.Record;
        MadeRun made = MadeRun.Of(record.Start.Return.Serial);
        Trace trace = store.LoadTrace(sealedRun);
        if (record.Samples != trace.Count || trace.Count > made.Samples || !trace.All.SequenceEqual(made.Trace(trace.Count).All))
        {
            yield return $"the {trace.Count} samples of {made.Serial} are not those that were written";
        }

        if (record.Outcome == RunOutcome.Judged)
        {
            if (CanonicalJson.Write(record) != CanonicalJson.Write(made.Record(record.Start)))
            {
                yield return $"the sealed record of {made.Serial} is not the one that was written";
            }

            yield break;
        }

        RunEvent[] events = [.. record.Events.TakeWhile((e, i) => e == made.Event(i))];
        if (record.Events.Skip(events.Length).Any(e => e.Text.StartsWith("event ", StringComparison.Ordinal)))
        {
            yield return $"an event of {made.Serial} is missing before a later one";
        }

        if (!record.Moves.SequenceEqual(Enumerable.Range(0, record.Moves.Count).Select(made.Move)))
        {
            yield return $"the moves of {made.Serial} are not those that were written";
        }
    }

    private static List<string> Problems(RecordStore store, Acknowledged.Run run)
    {
        if (store.Find(run.Id.ToString()) is not { } found)
        {
            return [$"run {run.Made.Serial} began and is gone"];
        }

        RunRecord record = found.Record;
        int events = record.Events.Count(e => e.Text.StartsWith("event ", StringComparison.Ordinal));
        List<string> problems = [.. Untrue(store, found)];
        Less("samples", record.Samples, run.Samples);
        Less("events", events, run.Events);
        Less("moves", record.Moves.Count, run.Moves);
        if (run.Sealed && record.Outcome != RunOutcome.Judged)
        {
            problems.Add($"run {run.Made.Serial} was sealed as judged and is {record.Outcome}");
        }

        if (run.Judged && store.Entries(run.Id).Count == 0)
        {
            problems.Add($"the later judgement of run {run.Made.Serial} is gone");
        }

        return problems;

        void Less(string what, int there, int acknowledged)
        {
            if (there < acknowledged)
            {
                problems.Add($"run {run.Made.Serial} has {there} of {acknowledged} {what} that were acknowledged");
            }
        }
    }
}
