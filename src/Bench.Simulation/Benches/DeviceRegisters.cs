using Bench.Devices.Modbus;
using Bench.Devices.Modbus.Server;
using Bench.Devices.Modbus.Values;
using Bench.Model.BenchFiles;

namespace Bench.Simulation.Benches;

/// <summary>The register maps of a bench's devices, built channel by channel as the bench file names them.</summary>
internal sealed class DeviceRegisters
{
    private readonly Lock _lock;
    private readonly Action<string> _speakTo;
    private readonly Dictionary<string, RegisterMap> _maps;
    private readonly Dictionary<(string Device, RegisterTable Table, int Address), List<(int Bit, Func<int> Read)>> _bits = [];

    /// <summary>Makes empty maps.</summary>
    /// <param name="file">The bench file.</param>
    /// <param name="benchLock">Held while a handler works: in real time each link has its own thread.</param>
    /// <param name="speakTo">Brings the bench to the present, before each reading and writing of the device it names.</param>
    internal DeviceRegisters(BenchFile file, Lock benchLock, Action<string> speakTo)
    {
        _lock = benchLock;
        _speakTo = speakTo;
        _maps = file.Devices.ToDictionary(d => d.Name, d => new RegisterMap { Identity = new DeviceIdentity("Greenhouse Works", $"SIMULATED {d.Name}", "1.0") });
    }

    internal RegisterMap this[string device] => _maps[device];

    /// <summary>A whole register or a single bit to read.</summary>
    internal void Reads(Channel channel, Func<int> value) =>
        _maps[channel.Device].OnRead(channel.Table, channel.Address, () => AtPresent(channel.Device, value));

    /// <summary>A number in one or two registers. The second is of the same instant as the first, read just before it.</summary>
    internal void ReadsNumber(Channel channel, Func<double> value)
    {
        RegisterValue form = new(channel.Type, channel.Words);
        ushort[] words = new ushort[form.Registers];
        Reads(channel, () =>
        {
            form.EncodeClipped(value(), words);
            return words[0];
        });
        if (words.Length == 2)
        {
            Reads(channel with { Address = channel.Address + 1 }, () => words[1]);
        }
    }

    /// <summary>An input: a bit of its own, or one of a register's.</summary>
    internal void ReadsInput(Channel channel, Func<bool> yes)
    {
        int Level() => yes() != channel.ActiveLow ? 1 : 0;
        if (channel.Bit is not { } bit)
        {
            Reads(channel, Level);
            return;
        }

        (string, RegisterTable, int) word = (channel.Device, channel.Table, channel.Address);
        if (!_bits.TryGetValue(word, out List<(int Bit, Func<int> Read)>? bits))
        {
            List<(int Bit, Func<int> Read)> added = bits = _bits[word] = [];
            Reads(channel, () => added.Aggregate(0, (sum, b) => sum | (b.Read() << b.Bit)));
        }

        // Two positions may share an emergency-stop input; it is one wire.
        if (!bits.Any(b => b.Bit == bit))
        {
            bits.Add((bit, Level));
        }
    }

    /// <summary>An output: what is written switches it, what is read is its coil.</summary>
    internal void Switches(Channel channel, Action<bool> command, Func<bool> coil)
    {
        Holds(channel, on => command(on != 0), () => coil() ? 1 : 0);
    }

    /// <summary>A place that is written and read back.</summary>
    internal void Holds(Channel channel, Action<int> write, Func<int> read)
    {
        Reads(channel, read);
        _maps[channel.Device].OnWrite(channel.Table, channel.Address, value =>
        {
            lock (_lock)
            {
                _speakTo(channel.Device);
                write(value);
            }
        });
    }

    private int AtPresent(string device, Func<int> value)
    {
        lock (_lock)
        {
            _speakTo(device);
            return value();
        }
    }
}
