using Bench.Devices.Buses;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Meters;

/// <summary>Neighbouring addresses of one device, read in one exchange.</summary>
internal sealed class ChannelBlock : IChannelSource
{
    /// <summary>Longest block: 16 registers take 3 ms of wire at 115200 baud, less than a second exchange would.</summary>
    public const int MostAddresses = 16;

    private readonly BusDevice _device;
    private readonly RegisterTable _table;
    private readonly int _first;
    private readonly ushort[] _words;
    private readonly bool[] _bits;

    private ChannelBlock(BusDevice device, RegisterTable table, int first, int last)
    {
        _device = device;
        _table = table;
        _first = first;
        bool isBits = table is RegisterTable.Coil or RegisterTable.DiscreteInput;
        _words = new ushort[isBits ? 0 : last - first + 1];
        _bits = new bool[isBits ? last - first + 1 : 0];
    }

    /// <summary>Groups channels into as few blocks as their addresses allow.</summary>
    public static IReadOnlyList<ChannelBlock> Of(IEnumerable<Channel> channels, Func<string, BusDevice> device)
    {
        List<ChannelBlock> blocks = [];
        foreach (IGrouping<(string Device, RegisterTable Table), int> group in channels.GroupBy(c => (c.Device, c.Table), c => c.Address))
        {
            int[] addresses = [.. group.Order()];
            for (int i = 0, next; i < addresses.Length; i = next)
            {
                next = i;
                while (next < addresses.Length && addresses[next] - addresses[i] < MostAddresses)
                {
                    next++;
                }

                blocks.Add(new ChannelBlock(device(group.Key.Device), group.Key.Table, addresses[i], addresses[next - 1]));
            }
        }

        return blocks;
    }

    /// <summary>What the block asks, in words.</summary>
    public string Asked => $"to read {_words.Length + _bits.Length} of {_table} from {_first}";

    /// <summary>The device.</summary>
    public BusDevice Device => _device;

    /// <summary>Whether a channel is read by this block.</summary>
    public bool Holds(Channel channel) =>
        channel.Device == _device.Name && channel.Table == _table
        && channel.Address >= _first && channel.Address < _first + _words.Length + _bits.Length;

    /// <summary>Reads the block.</summary>
    public ValueTask<ModbusResult> ReadAsync(BusClass line, CancellationToken cancel) => _bits.Length > 0
        ? _device.ReadBitsAsync(line, _table, _first, _bits, retry: false, cancel)
        : _device.ReadRegistersAsync(line, _table, _first, _words, retry: false, cancel);

    bool IChannelSource.Holds(Channel channel, bool isInput) => Holds(channel);

    async ValueTask<(DeviceFault? Fault, long At, double AtUncertainty)> IChannelSource.ReadAsync(BusClass line, CancellationToken cancel)
    {
        ModbusResult result = await ReadAsync(line, cancel);
        return (result.Ok ? null : _device.Fault(result, Asked), result.At, result.AtUncertainty);
    }

    /// <summary>A register's number, two's complement where <paramref name="signed"/>; a bit as 0 or 1.</summary>
    public double Value(Channel channel, bool signed)
    {
        int raw = Raw(channel);
        return signed && raw > short.MaxValue ? raw - 0x10000 : raw;
    }

    /// <summary>The raw value of a channel: a bit as 0 or 1.</summary>
    public int Raw(Channel channel)
    {
        int at = channel.Address - _first;
        int raw = _bits.Length > 0 ? (_bits[at] ? 1 : 0) : _words[at];
        return channel.Bit is int bit ? (raw >> bit) & 1 : raw;
    }
}
