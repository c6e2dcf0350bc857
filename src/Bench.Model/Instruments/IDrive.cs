namespace Bench.Model.Instruments;

/// <summary>The outputs that turn one unit. Off is always allowed; on needs a permit.</summary>
public interface IDrive
{
    /// <summary>
    /// Switches the output of the permit's direction on, the other off first (break before make is the caller's
    /// dead time and the drive's order of writes). A commanded unit gets power, then its target. Written once: a lost reply is not answered by writing again (S8).
    /// </summary>
    /// <exception cref="PermitRefusedException">The permit expired, was used, or asks for a direction the drive lacks.</exception>
    /// <exception cref="DeviceFaultException">The board did not confirm; the state is unknown until read back.</exception>
    ValueTask EnergiseAsync(DrivePermit permit, CancellationToken cancel);

    /// <summary>Switches every output of this drive off. Safe to repeat. Goes before anything else on its link.</summary>
    /// <exception cref="DeviceFaultException">The board did not confirm.</exception>
    ValueTask SwitchOffAsync(CancellationToken cancel);

    /// <summary>Asks the board what its outputs are.</summary>
    /// <exception cref="DeviceFaultException">The board did not answer.</exception>
    ValueTask<DriveState> ReadBackAsync(CancellationToken cancel);
}
