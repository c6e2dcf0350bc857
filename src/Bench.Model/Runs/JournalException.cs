namespace Bench.Model.Runs;

/// <summary>The store could not take a part of a run: disk full, read-only, damaged or locked.</summary>
public sealed class JournalException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="message">What failed, where, and what to do.</param>
    /// <param name="inner">The cause.</param>
    public JournalException(string message, Exception inner)
        : base(message, inner)
    {
    }
}
