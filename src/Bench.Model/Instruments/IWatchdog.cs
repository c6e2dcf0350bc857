namespace Bench.Model.Instruments;

/// <summary>
/// A board's own watchdog: once armed, the board switches its outputs off when it has not been spoken to for a time.
/// Any exchange with the board feeds it, so nobody does so on purpose.
/// </summary>
public interface IWatchdog
{
    /// <summary>Name of the board in the bench file.</summary>
    string Device { get; }

    /// <summary>Time without an exchange after which the board switches off.</summary>
    TimeSpan Time { get; }

    /// <summary>Arms it.</summary>
    /// <exception cref="DeviceFaultException">The board did not confirm.</exception>
    ValueTask ArmAsync(CancellationToken cancel);

    /// <summary>Asks the board whether it is armed with this time. A board that restarted is not.</summary>
    /// <exception cref="DeviceFaultException">The board did not answer.</exception>
    ValueTask<bool> ReadArmedAsync(CancellationToken cancel);
}
