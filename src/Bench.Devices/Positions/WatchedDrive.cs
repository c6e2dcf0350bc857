using Bench.Devices.Boards;
using Bench.Devices.Links;
using Bench.Model.Instruments;

namespace Bench.Devices.Positions;

/// <summary>
/// A drive that switches nothing on once a link of its position was lost: what the board did meanwhile is not known (S8).
/// Off and read-back go on, over the link that came back.
/// </summary>
internal sealed class WatchedDrive(IBenchDrive drive, LinkWatch watch) : IDrive
{
    public async ValueTask EnergiseAsync(DrivePermit permit, CancellationToken cancel)
    {
        using CancellationTokenSource either = watch.Join(cancel);
        try
        {
            // The drive looks at the token once more when it has its turn, right before the frame goes out.
            either.Token.ThrowIfCancellationRequested();
            await drive.EnergiseAsync(permit, either.Token);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested && watch.Fault is { } fault)
        {
            throw new DeviceFaultException(fault);
        }
    }

    public ValueTask SwitchOffAsync(CancellationToken cancel) => drive.SwitchOffAsync(cancel);

    public ValueTask<DriveState> ReadBackAsync(CancellationToken cancel) => drive.ReadBackAsync(cancel);
}
