using Bench.Model.Instruments;
using Bench.Model.Runs;

namespace Bench.Running.Safety;

/// <summary>Arms the boards' watchdogs and asks whether they still are (S6).</summary>
internal sealed class WatchdogGuard(IReadOnlyList<IWatchdog> watchdogs, TimeProvider time, IGateRecord record)
{
    /// <summary>Arming energises nothing, so a lost frame may be followed by another; a noisy line loses one in ten.</summary>
    private const int MostAttempts = 4;

    private static readonly TimeSpan BetweenAttempts = TimeSpan.FromMilliseconds(20);

    /// <summary>Arms every watchdog and reads it back.</summary>
    /// <returns>Why that failed; null when all are armed.</returns>
    public async ValueTask<string?> ArmAsync()
    {
        foreach (IWatchdog watchdog in watchdogs)
        {
            string? failed = await ArmAsync(watchdog);
            if (failed is not null)
            {
                return $"the watchdog of {watchdog.Device} can't be armed ({failed})";
            }

            record.Write(RunEventKind.Gate, $"watchdog of {watchdog.Device}: armed with {watchdog.Time.TotalMilliseconds:0} ms, read back");
        }

        return null;
    }

    /// <summary>Finds a watchdog that is not armed any more.</summary>
    /// <returns>Its board; null when all are armed.</returns>
    /// <exception cref="DeviceFaultException">A board did not answer.</exception>
    public async ValueTask<string?> FindDisarmedAsync(CancellationToken cancel)
    {
        foreach (IWatchdog watchdog in watchdogs)
        {
            if (!await watchdog.ReadArmedAsync(cancel))
            {
                return watchdog.Device;
            }
        }

        return null;
    }

    private async ValueTask<string?> ArmAsync(IWatchdog watchdog)
    {
        string? failed = null;
        for (int attempt = 1; attempt <= MostAttempts; attempt++)
        {
            try
            {
                await watchdog.ArmAsync(CancellationToken.None);
                if (await watchdog.ReadArmedAsync(CancellationToken.None))
                {
                    return null;
                }

                failed = "its register does not hold what was written";
            }
            catch (DeviceFaultException e)
            {
                failed = e.Message;
            }

            await Task.Delay(BetweenAttempts, time);
        }

        return failed;
    }
}
