using Bench.Model.Moves;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Records;

namespace Bench.Tests.Records;

/// <summary>Writes whole runs through a journal, as the runner does.</summary>
internal static class RunWriting
{
    /// <summary>Writes a run and seals it.</summary>
    public static RunRecord Seal(RecordStore store, RunStart start, int samples = 500)
    {
        Trace trace = SampleRuns.Trace(samples);
        RunRecord record = SampleRuns.Record(start, trace);
        using IRunJournal journal = store.Begin(start);
        Write(journal, trace, record);
        journal.Seal(record, trace);
        return record;
    }

    /// <summary>Writes what a journal gets before sealing: samples one by one, then events and moves.</summary>
    public static void Write(IRunJournal journal, Trace trace, RunRecord record)
    {
        for (int i = 0; i < trace.Count; i++)
        {
            journal.Write(i, trace.Slice(i, 1));
        }

        foreach (RunEvent entry in record.Events)
        {
            journal.Write(entry);
        }

        foreach (Move move in record.Moves)
        {
            journal.Write(move);
        }
    }
}
