namespace Bench.Records;

/// <summary>The local store could not do what was asked: not there, not readable, not ours, full, locked or damaged.</summary>
public sealed class StoreException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="message">What failed, where, and what to do.</param>
    /// <param name="inner">The cause, when there is one.</param>
    public StoreException(string message, Exception? inner = null)
        : base(message, inner)
    {
    }
}
