using Bench.Model.Runs;

namespace Bench.Running.Safety;

/// <summary>Where the gate takes down what it does (S9).</summary>
public interface IGateRecord
{
    /// <summary>Takes an event down; durable when this returns.</summary>
    /// <exception cref="JournalException">The store can't take it.</exception>
    void Write(RunEventKind kind, string text);

    /// <summary>
    /// Takes an event down without waiting for the store; durable with the next <see cref="Write"/> at the latest. For
    /// what is said while a drive is on, when a slow disk must not blind the one who watches.
    /// </summary>
    void WriteSoon(RunEventKind kind, string text);
}
