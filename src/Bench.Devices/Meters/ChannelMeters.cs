using System.Runtime.CompilerServices;
using Bench.Devices.Buses;
using Bench.Devices.Streams;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Meters;

/// <summary>Current, voltage, index and emergency stop of a position, in as few exchanges as their places allow.</summary>
public sealed class ChannelMeters : IMeters
{
    private readonly UnitPositionDescription _position;
    private readonly IChannelSource[] _sources;
    private readonly bool _pushed;

    /// <summary>Makes the meters of a position whose values are all in registers and inputs.</summary>
    /// <param name="position">Its description.</param>
    /// <param name="device">Finds a device by name.</param>
    public ChannelMeters(UnitPositionDescription position, Func<string, BusDevice> device)
        : this(position, ChannelBlock.Of(Channels(position), device))
    {
    }

    internal ChannelMeters(UnitPositionDescription position, IReadOnlyList<IChannelSource> sources)
    {
        _position = position;
        // What is pushed was there before what is polled is asked for.
        _sources = [.. sources.OrderByDescending(s => s is StreamSource)];
        _pushed = sources.Any(s => s is StreamSource && s.Holds(position.Current.Channel, isInput: false));
    }

    /// <inheritdoc/>
    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    public async ValueTask<MeterReading> ReadAsync(CancellationToken cancel)
    {
        long at = 0;
        double uncertainty = 0;
        foreach (IChannelSource source in _sources)
        {
            (DeviceFault? fault, long readAt, double readWithin) = await source.ReadAsync(BusClass.Rest, cancel);
            if (fault is not null)
            {
                return new MeterReading(fault, 0, 0, null, null, 0);
            }

            // The current's, unless that is pushed: then it has instants of its own, and this one is that of what was polled beside it.
            bool tells = source is StreamSource ? at == 0 : source.Holds(_position.Current.Channel, isInput: false) || _pushed;
            (at, uncertainty) = tells ? (readAt, readWithin) : (at, uncertainty);
        }

        return new MeterReading(null, Value(_position.Current), Value(_position.Voltage), Bit(_position.Index), Bit(_position.EmergencyStop), at, uncertainty);
    }

    /// <summary>What the meters read.</summary>
    internal static IEnumerable<Channel> Channels(UnitPositionDescription position) =>
        new[] { position.Current.Channel, position.Voltage.Channel, position.Index, position.EmergencyStop }.OfType<Channel>();

    private double Value(MeterDescription meter) => (Raw(meter.Channel, isInput: false) * meter.Scale) + meter.Offset;

    private bool? Bit(Channel? channel) => channel is null ? null : (Raw(channel, isInput: true) != 0) != channel.ActiveLow;

    private double Raw(Channel channel, bool isInput)
    {
        foreach (IChannelSource source in _sources)
        {
            if (source.Holds(channel, isInput))
            {
                return source.Value(channel);
            }
        }

        throw new InvalidOperationException($"nothing reads {channel}");
    }
}
