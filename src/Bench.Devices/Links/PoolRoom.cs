namespace Bench.Devices.Links;

/// <summary>
/// Keeps the thread pool from running short: a loop whose reads are answered in place never leaves its pool thread, so each
/// open link asks the pool for one thread more that it makes without delay. Otherwise timers could wait for half a second.
/// Whoever lets several such loops run at once asks for theirs.
/// </summary>
public static class PoolRoom
{
    private static readonly Lock Guard = new();

    /// <summary>Asks for threads.</summary>
    /// <param name="threads">How many more; negative to give them back.</param>
    public static void Add(int threads)
    {
        lock (Guard)
        {
            ThreadPool.GetMinThreads(out int workers, out int completions);
            ThreadPool.SetMinThreads(workers + threads, completions);
        }
    }
}
