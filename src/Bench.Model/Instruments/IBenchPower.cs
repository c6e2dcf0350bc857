namespace Bench.Model.Instruments;

/// <summary>
/// Supplies that the bench itself switches, as one run sees them: on only once cautions and wiring are confirmed (S3), off
/// at the end (S5). Runs at other positions may use the same supplies.
/// </summary>
public interface IBenchPower
{
    /// <summary>Whether there is anything to switch.</summary>
    bool IsSwitched { get; }

    /// <summary>Voltages that the bench file allows the supply of this run's position to be set to; null when none.</summary>
    SupplyRange? Settable { get; }

    /// <summary>Whether other runs use the supplies now: then none may set them.</summary>
    bool IsShared { get; }

    /// <summary>Sets the supplies, checks the settings by reading back, and switches them on, unless they are on for another run.</summary>
    /// <exception cref="DeviceFaultException">A supply did not do it; those switched on before it are still on.</exception>
    ValueTask SwitchOnAsync(CancellationToken cancel);

    /// <summary>
    /// Sets the voltage of the supply of this run's position, once, and reads it back. From then until it is restored no other
    /// run may switch the supplies on.
    /// </summary>
    /// <exception cref="DeviceFaultException">It did not do it, or did not say so: it may be set to either voltage.</exception>
    /// <exception cref="PermitRefusedException">The permit expired, was used, or asks for a voltage outside the bench file's range.</exception>
    ValueTask SetVoltageAsync(SupplyPermit permit, CancellationToken cancel);

    /// <summary>Sets the voltage that the bench file names again and reads it back; for a drive that is off. Safe to repeat.</summary>
    /// <exception cref="DeviceFaultException">It can't be confirmed.</exception>
    ValueTask RestoreVoltageAsync(CancellationToken cancel);

    /// <summary>Ends this run's use: switches them off and reads them back, unless other runs still use them. Safe to repeat.</summary>
    /// <param name="outputsConfirmedOff">Whether the run's outputs are; if not, the supplies go off for all runs, and stay so.</param>
    /// <param name="cancel">Gives up.</param>
    /// <returns>Whether they are off; false when they were left on for others.</returns>
    /// <exception cref="DeviceFaultException">A supply did not confirm.</exception>
    ValueTask<bool> SwitchOffAsync(bool outputsConfirmedOff, CancellationToken cancel);
}
