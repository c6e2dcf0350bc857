using System.Runtime.CompilerServices;
using Bench.Devices.Buses;
using Bench.Devices.Modbus.Client;
using Bench.Devices.Modbus.Values;
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
    private readonly Channel[] _channels;

    private ChannelBlock(BusDevice device, RegisterTable table, int first, int last, Channel[] channels)
    {
        _channels = channels;
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
        foreach (IGrouping<(string Device, RegisterTable Table), Channel> group in channels.GroupBy(c => (c.Device, c.Table)))
        {
            Channel[] ordered = [.. group.OrderBy(c => c.Address)];
            for (int i = 0, next; i < ordered.Length; i = next)
            {
                next = i;
                int last = ordered[i].Address;
                while (next < ordered.Length && Last(ordered[next]) - ordered[i].Address < MostAddresses)
                {
                    last = Math.Max(last, Last(ordered[next]));
                    next++;
                }

                blocks.Add(new ChannelBlock(device(group.Key.Device), group.Key.Table, ordered[i].Address, last, ordered[i..next]));
            }
        }

        return blocks;
    }

    /// <summary>What the block asks, in words.</summary>
    public string Asked
    {
        get
        {
            int last = _first + _words.Length + _bits.Length - 1;
            int named = _channels.SelectMany(c => Enumerable.Range(c.Address, c.Addresses)).Distinct().Count();
            string unnamed = last - _first + 1 > named ? ", those between the ones that the bench file names too" : "";
            return last == _first ? $"to read {Word} {_first}" : $"to read {Word}s {_first} to {last} at once{unnamed}";
        }
    }

    /// <summary>The device.</summary>
    public BusDevice Device => _device;

    /// <summary>Whether a channel is read by this block.</summary>
    public bool Holds(Channel channel) =>
        channel.Device == _device.Name && channel.Table == _table
        && channel.Address >= _first && Last(channel) < _first + _words.Length + _bits.Length;

    /// <summary>Reads the block.</summary>
    public ValueTask<ModbusResult> ReadAsync(BusClass line, CancellationToken cancel) => _bits.Length > 0
        ? _device.ReadBitsAsync(line, _table, _first, _bits, retry: false, cancel)
        : _device.ReadRegistersAsync(line, _table, _first, _words, retry: false, cancel);

    bool IChannelSource.Holds(Channel channel, bool isInput) => Holds(channel);

    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    async ValueTask<(DeviceFault? Fault, long At, double AtUncertainty)> IChannelSource.ReadAsync(BusClass line, CancellationToken cancel)
    {
        ModbusResult result = await ReadAsync(line, cancel);
        return (result.Ok ? Damage() : _device.Fault(result, Asked), result.At, result.AtUncertainty);
    }

    /// <summary>A number as its registers hold it; a bit as 0 or 1.</summary>
    public double Value(Channel channel)
    {
        int at = channel.Address - _first;
        return _bits.Length > 0 ? (_bits[at] ? 1 : 0)
            : channel.Bit is int bit ? (_words[at] >> bit) & 1
            : RegisterValue.Decode(channel.Type, channel.Words, _words.AsSpan(at)) ?? throw new InvalidOperationException($"{channel} holds no number; ReadAsync says so");
    }

    private string Word => _table switch
    {
        RegisterTable.Coil => "coil",
        RegisterTable.DiscreteInput => "discrete input",
        RegisterTable.HoldingRegister => "holding register",
        _ => "input register",
    };

    private static int Last(Channel channel) => channel.Address + channel.Addresses - 1;

    private DeviceFault? Damage()
    {
        foreach (Channel channel in _channels)
        {
            if (channel.Type == RegisterType.Float32 && RegisterValue.Decode(channel.Type, channel.Words, _words.AsSpan(channel.Address - _first)) is null)
            {
                return _device.Damaged($"the number in {Word} {channel.Address} is not finite");
            }
        }

        return null;
    }
}
