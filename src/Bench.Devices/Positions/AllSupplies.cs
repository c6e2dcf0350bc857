using Bench.Devices.Scpi;
using Bench.Model.Instruments;

namespace Bench.Devices.Positions;

/// <summary>The programmable supplies of an open bench: switched together, and one that fails does not keep the others from it.</summary>
internal sealed class AllSupplies(IReadOnlyList<ScpiSupply> supplies)
{
    /// <summary>Whether there is any.</summary>
    public bool AreThere => supplies.Count > 0;

    /// <summary>One of them; null when there is none of that name.</summary>
    public ScpiSupply? Named(string? device) => supplies.FirstOrDefault(s => s.Name == device);

    /// <summary>Sets each, checks it by reading back, and switches it on.</summary>
    public Task<IReadOnlyList<SupplyState>> StartAsync(CancellationToken cancel) => EachAsync(s => s.StartAsync(cancel), on: true);

    /// <summary>Switches each off and reads it back.</summary>
    public Task<IReadOnlyList<SupplyState>> TurnOffAsync(CancellationToken cancel) => EachAsync(s => s.SwitchOffAsync(cancel), on: false);

    private async Task<IReadOnlyList<SupplyState>> EachAsync(Func<ScpiSupply, Task> work, bool on)
    {
        List<SupplyState> states = [];
        foreach (ScpiSupply supply in supplies)
        {
            try
            {
                await work(supply);
                states.Add(new SupplyState(supply.Name, on, null));
            }
            catch (DeviceFaultException e)
            {
                states.Add(new SupplyState(supply.Name, null, e.Fault));
            }
        }

        return states;
    }
}
