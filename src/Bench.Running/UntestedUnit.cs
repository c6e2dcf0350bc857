using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Model.Traces;

namespace Bench.Running;

/// <summary>Judges a unit by its arrival inspection alone, and seals that as a record: no device is opened, nothing is energised.</summary>
public static class UntestedUnit
{
    /// <summary>What its record says happened.</summary>
    public const string Note = "judged by the arrival inspection alone; nothing was connected or energised";

    /// <summary>Judges it.</summary>
    /// <param name="start">The return, its profile, and the bench it would have been tested at.</param>
    /// <param name="journal">Where the record goes.</param>
    /// <returns>The record, sealed in the journal.</returns>
    /// <exception cref="JournalException">The store can't take it.</exception>
    public static RunRecord Judge(RunStart start, IRunJournal journal)
    {
        ArgumentNullException.ThrowIfNull(start);
        ArgumentNullException.ThrowIfNull(journal);
        RunEvent note = new(0, RunEventKind.Note, Note);
        journal.Write(note);
        Judgement judgement = Analysis.Judging.Judge.DecideUntested(start.Profile, start.Return);
        RunRecord record = new()
        {
            Start = start,
            EndedAt = start.StartedAt,
            Outcome = judgement.Outcome,
            OutputsConfirmedOff = true,
            Events = [note],
            Moves = [],
            Judgement = judgement,
            Samples = 0,
        };
        journal.Seal(record, new Trace());
        return record;
    }
}
