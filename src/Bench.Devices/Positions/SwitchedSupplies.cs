using Bench.Model.Instruments;

namespace Bench.Devices.Positions;

/// <summary>The programmable supplies of an open bench, as a run switches them.</summary>
internal sealed class SwitchedSupplies(OpenBench bench, bool isSwitched) : IBenchPower
{
    /// <inheritdoc/>
    public bool IsSwitched => isSwitched;

    /// <inheritdoc/>
    public async ValueTask SwitchOnAsync(CancellationToken cancel) => Demand(await bench.StartSuppliesAsync(cancel));

    /// <inheritdoc/>
    public async ValueTask SwitchOffAsync(CancellationToken cancel) => Demand(await bench.SwitchSuppliesOffAsync(cancel));

    private static void Demand(IReadOnlyList<SupplyState> states)
    {
        if (states.FirstOrDefault(s => s.Fault is not null) is { Fault: { } fault })
        {
            throw new DeviceFaultException(fault);
        }
    }
}
