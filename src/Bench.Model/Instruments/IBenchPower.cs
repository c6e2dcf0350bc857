namespace Bench.Model.Instruments;

/// <summary>Supplies that the bench itself switches: on only once cautions and wiring are confirmed (S3), off at the end (S5).</summary>
public interface IBenchPower
{
    /// <summary>Whether there is anything to switch.</summary>
    bool IsSwitched { get; }

    /// <summary>Sets the supplies, checks the settings by reading back, and switches them on.</summary>
    /// <exception cref="DeviceFaultException">A supply did not do it; those switched on before it are still on.</exception>
    ValueTask SwitchOnAsync(CancellationToken cancel);

    /// <summary>Switches them off and reads them back. Safe to repeat.</summary>
    /// <exception cref="DeviceFaultException">A supply did not confirm.</exception>
    ValueTask SwitchOffAsync(CancellationToken cancel);
}
