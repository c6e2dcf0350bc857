using Bench.Model.Moves;
using Bench.Model.Traces;

namespace Bench.Model.Runs;

/// <summary>
/// Takes a run down as it happens. When a call returns, events and moves are in the store; samples follow within a
/// batch. One journal is one run.
/// </summary>
/// <remarks>Every method throws <see cref="JournalException"/> when the store cannot take it; the runner then stops the run safely.</remarks>
public interface IRunJournal : IDisposable
{
    /// <summary>Writes an event.</summary>
    void Write(RunEvent entry);

    /// <summary>Writes samples.</summary>
    /// <param name="first">Index of the first of them in the run's trace.</param>
    /// <param name="samples">The samples.</param>
    void Write(int first, ReadOnlySpan<Sample> samples);

    /// <summary>Writes a move.</summary>
    void Write(Move move);

    /// <summary>Seals the run: record and trace become final.</summary>
    void Seal(RunRecord record, Trace trace);
}
