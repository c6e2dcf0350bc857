namespace Bench.Model.Instruments;

/// <summary>
/// Readings that come unasked, many between two polls. Reading the instrument gives the newest, read before or not, beside what
/// is polled; here are all of them, once each and in order, the newest included.
/// </summary>
/// <typeparam name="TReading">A reading.</typeparam>
public interface IPushedReadings<TReading>
{
    /// <summary>Takes the oldest that arrived since the instrument was first read and was not taken yet. Never waits.</summary>
    /// <returns>False when there is none.</returns>
    bool TryTake(out TReading reading);
}
