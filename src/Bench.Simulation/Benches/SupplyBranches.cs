using Bench.Model.BenchFiles;

namespace Bench.Simulation.Benches;

/// <summary>
/// What feeds each position: the supply that measures it; one without is fed by a supply set by hand, always on. An emergency
/// stop or a cut opens all branches.
/// </summary>
internal sealed class SupplyBranches
{
    private readonly IReadOnlyList<(UnitPositionDescription Description, SimulatedPosition Position)> _positions;
    private readonly Dictionary<string, SimulatedInstrument> _instruments = [];
    private bool _emergencyStop;
    private bool _cut;

    internal SupplyBranches(BenchFile file, IReadOnlyList<(UnitPositionDescription Description, SimulatedPosition Position)> positions)
    {
        _positions = positions;
        HashSet<string> scpi = [.. file.Links.Where(l => l.Protocol == LinkProtocol.Scpi).Select(l => l.Name)];
        foreach (DeviceDescription device in file.Devices.Where(d => scpi.Contains(d.Link)))
        {
            _instruments[device.Name] = Instrument(device);
        }

        Feed();
    }

    /// <summary>Whether the emergency stop is pressed.</summary>
    internal bool EmergencyStop
    {
        get => _emergencyStop;
        set
        {
            _emergencyStop = value;
            Feed();
        }
    }

    /// <summary>Whether the supply is cut without the emergency stop.</summary>
    internal bool Cut
    {
        get => _cut;
        set
        {
            _cut = value;
            Feed();
        }
    }

    /// <summary>Called when a supply's setting may have changed, with it.</summary>
    internal Action<SupplySetting>? Set { get; set; }

    /// <summary>An instrument that speaks SCPI; null when the device is none.</summary>
    internal SimulatedInstrument? InstrumentOf(string device) => _instruments.GetValueOrDefault(device);

    private SimulatedInstrument Instrument(DeviceDescription device)
    {
        SimulatedInstrument instrument = new(
            device,
            () => _positions.Where(p => p.Description.Current.Channel.Device == device.Name).Sum(p => p.Position.MeasuredCurrent()),
            () => _positions.FirstOrDefault(p => p.Description.Voltage.Channel.Device == device.Name).Position?.MeasuredVoltage() ?? 0.0);
        instrument.Changed = () =>
        {
            Feed();
            Set?.Invoke(instrument.Setting);
        };
        return instrument;
    }

    private void Feed()
    {
        foreach ((UnitPositionDescription description, SimulatedPosition position) in _positions)
        {
            if (position.Plant is { } plant)
            {
                SimulatedInstrument? supply = new[] { description.Voltage.Channel.Device, description.Current.Channel.Device }
                    .Select(InstrumentOf)
                    .FirstOrDefault(i => i is { IsSupply: true });
                plant.SupplyConnected = !_emergencyStop && !_cut && supply is not { On: false };
                plant.SupplyShare = supply?.SetShare ?? 1.0;
            }
        }
    }
}
