using Bench.Model.Instruments;

namespace Bench.Devices.Buses;

/// <summary>Counts exchanges with one device, and how they went. Two positions may count at once.</summary>
internal sealed class ExchangeCounter
{
    private long _exchanges;
    private long _silent;
    private long _garbled;
    private long _refused;

    /// <summary>Counts one exchange.</summary>
    /// <param name="fault">How it failed; null when it did not.</param>
    public void Count(DeviceFaultKind? fault)
    {
        Interlocked.Increment(ref _exchanges);
        switch (fault)
        {
            case DeviceFaultKind.Silent or DeviceFaultKind.LinkLost:
                Interlocked.Increment(ref _silent);
                break;
            case DeviceFaultKind.Garbled:
                Interlocked.Increment(ref _garbled);
                break;
            case DeviceFaultKind.Refused:
                Interlocked.Increment(ref _refused);
                break;
            default:
                break;
        }
    }

    /// <summary>Says of the last exchange, counted as good, that its answer was damaged after all.</summary>
    public void CountDamaged() => Interlocked.Increment(ref _garbled);

    /// <summary>The counts so far.</summary>
    public LinkCounts Of(string device, string link, bool isFeedback) => new(
        device,
        link,
        isFeedback,
        Interlocked.Read(ref _exchanges),
        Interlocked.Read(ref _silent),
        Interlocked.Read(ref _garbled),
        Interlocked.Read(ref _refused));
}
