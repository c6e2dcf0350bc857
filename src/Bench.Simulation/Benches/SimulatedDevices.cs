using Bench.Model.BenchFiles;

namespace Bench.Simulation.Benches;

/// <summary>What the places of a bench file lead to, whether its devices have registers or talk lines.</summary>
internal sealed class SimulatedDevices(BenchFile file, DeviceRegisters registers)
{
    private readonly Dictionary<string, SimulatedLineDevice> _lineDevices =
        file.Devices.Where(d => d.Lines is not null).ToDictionary(d => d.Name, d => new SimulatedLineDevice(d.Lines!, d.Watchdog?.Lines));

    private readonly Dictionary<string, SimulatedStream> _streams =
        file.Devices.Where(d => d.Stream is not null).ToDictionary(d => d.Name, d => new SimulatedStream(d.Stream!));

    /// <summary>A number: what its registers or its field hold, clipped to what they can, or what is said in a line.</summary>
    internal void Reads(Channel channel, Func<double> held, Func<double> number)
    {
        if (channel.Text is null)
        {
            registers.ReadsNumber(channel, held);
        }
        else if (_lineDevices.TryGetValue(channel.Device, out SimulatedLineDevice? device))
        {
            device.Reads(channel.Text, number);
        }
        else if (_streams.TryGetValue(channel.Device, out SimulatedStream? stream))
        {
            stream.Sends(channel.Text, held);
        }
    }

    /// <summary>An input; null for none.</summary>
    internal void ReadsInput(Channel? channel, Func<bool> yes)
    {
        if (channel is { Text: string line })
        {
            _lineDevices[channel.Device].ReadsInput(line, () => yes() != channel.ActiveLow);
        }
        else if (channel is not null)
        {
            registers.ReadsInput(channel, yes);
        }
    }

    /// <summary>A register that is written and read back.</summary>
    internal void Holds(Channel channel, Action<int> write, Func<int> read) => registers.Holds(channel, write, read);

    /// <summary>An output; null for none.</summary>
    internal void Switches(Channel? channel, Action<bool> command, Func<bool> coil)
    {
        if (channel is { Text: string line })
        {
            _lineDevices[channel.Device].Switches(line, command, coil);
        }
        else if (channel is not null)
        {
            registers.Switches(channel, command, coil);
        }
    }

    /// <summary>A device that talks lines.</summary>
    internal SimulatedLineDevice LineDevice(string device) => _lineDevices[device];

    /// <summary>A device that pushes frames.</summary>
    internal SimulatedStream Stream(string device) => _streams[device];

    /// <summary>What a device that talks lines answers; null for silence.</summary>
    internal string? Answer(string device, string line) => _lineDevices[device].Answer(line);
}
