namespace Bench.Simulation.Time;

/// <summary>A run in virtual time waits for something that can never happen.</summary>
public sealed class VirtualTimeDeadlockException : InvalidOperationException
{
    /// <summary>Makes the exception.</summary>
    /// <param name="elapsed">Virtual time at which the run stood still.</param>
    public VirtualTimeDeadlockException(TimeSpan elapsed)
        : base($"the run stands still at {elapsed}: it has not ended, nothing is ready and no timer is set; "
            + "it waits for something that never comes, or left this thread (thread pool, real I/O)")
    {
        Elapsed = elapsed;
    }

    /// <summary>Virtual time at which the run stood still.</summary>
    public TimeSpan Elapsed { get; }
}
