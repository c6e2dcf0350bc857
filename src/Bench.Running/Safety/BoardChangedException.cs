namespace Bench.Running.Safety;

/// <summary>
/// A board is no longer as the gate left it: it restarted, or something else switches it. The gate has tripped; no move
/// goes on and none begins.
/// </summary>
public sealed class BoardChangedException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="reason">What was found, and what to do.</param>
    public BoardChangedException(string reason)
        : base(reason)
    {
    }
}
