using Bench.Devices.Buses;
using Bench.Devices.Lines;
using Bench.Devices.Meters;
using Bench.Devices.Scpi;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Positions;

/// <summary>The devices of an open bench, each as what it speaks.</summary>
internal sealed class OpenDevices
{
    private readonly Dictionary<string, BusDevice> _registers = [];
    private readonly Dictionary<string, ScpiDevice> _instruments = [];

    /// <summary>Makes the devices.</summary>
    /// <param name="file">The bench file.</param>
    /// <param name="buses">Owners of links that carry Modbus, by link.</param>
    /// <param name="lines">Owners of links that carry lines, by link.</param>
    /// <param name="isFeedback">Whether a device is a unit's own feedback and nothing else.</param>
    public OpenDevices(
        BenchFile file,
        IReadOnlyDictionary<string, BusOwner> buses,
        IReadOnlyDictionary<string, LineOwner> lines,
        Func<string, bool> isFeedback)
    {
        foreach (DeviceDescription device in file.Devices)
        {
            if (buses.TryGetValue(device.Link, out BusOwner? bus))
            {
                _registers[device.Name] = new BusDevice(bus, device, isFeedback(device.Name));
            }
            else
            {
                _instruments[device.Name] = new ScpiDevice(new LineDevice(lines[device.Link], device, ScpiDevice.Terminator, isFeedback: false));
            }
        }

        Supplies =
        [
            .. from device in file.Devices
               where device.SupplyVoltageV is not null
               select new ScpiSupply(_instruments[device.Name], device.SupplyVoltageV!.Value, file.SupplyCurrentLimitA),
        ];
    }

    /// <summary>The programmable supplies.</summary>
    public IReadOnlyList<ScpiSupply> Supplies { get; }

    /// <summary>A device of registers and coils.</summary>
    public BusDevice Registers(string name) => _registers[name];

    /// <summary>An instrument; null when the device is none.</summary>
    public ScpiDevice? Instrument(string name) => _instruments.GetValueOrDefault(name);

    /// <summary>Exchanges so far with a device.</summary>
    public LinkCounts Counts(string name) =>
        _instruments.TryGetValue(name, out ScpiDevice? instrument) ? instrument.Line.Counts : _registers[name].Counts;

    /// <summary>How to read channels in as few exchanges as their places allow; the same text is asked once.</summary>
    public IReadOnlyList<IChannelSource> Sources(IEnumerable<Channel> channels)
    {
        ILookup<bool, Channel> byText = channels.ToLookup(c => c.Text is not null);
        return
        [
            .. ChannelBlock.Of(byText[false], Registers),
            .. byText[true].DistinctBy(c => (c.Device, c.Text)).Select(c => new ScpiSource(_instruments[c.Device], c.Text!)),
        ];
    }
}
