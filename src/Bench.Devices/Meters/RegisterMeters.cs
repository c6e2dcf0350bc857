using Bench.Devices.Buses;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Meters;

/// <summary>Current, voltage, index and emergency stop from registers and inputs, in as few exchanges as their addresses allow.</summary>
public sealed class RegisterMeters : IMeters
{
    private readonly UnitPositionDescription _position;
    private readonly IReadOnlyList<ChannelBlock> _blocks;

    /// <summary>Makes the meters of a position.</summary>
    /// <param name="position">Its description.</param>
    /// <param name="device">Finds a device by name.</param>
    public RegisterMeters(UnitPositionDescription position, Func<string, BusDevice> device)
    {
        _position = position;
        Channel?[] channels = [position.Current.Channel, position.Voltage.Channel, position.Index, position.EmergencyStop];
        _blocks = ChannelBlock.Of(channels.OfType<Channel>(), device);
    }

    /// <inheritdoc/>
    public async ValueTask<MeterReading> ReadAsync(CancellationToken cancel)
    {
        long at = 0;
        double uncertainty = 0;
        foreach (ChannelBlock block in _blocks)
        {
            ModbusResult result = await block.ReadAsync(BusClass.Rest, cancel);
            if (!result.Ok)
            {
                return new MeterReading(block.Device.Fault(result, block.Asked), 0, 0, null, null, 0);
            }

            (at, uncertainty) = block.Holds(_position.Current.Channel) ? (result.At, result.AtUncertainty) : (at, uncertainty);
        }

        return new MeterReading(null, Value(_position.Current), Value(_position.Voltage), Bit(_position.Index), Bit(_position.EmergencyStop), at, uncertainty);
    }

    private double Value(MeterDescription meter)
    {
        int raw = Raw(meter.Channel);
        int signed = meter.Signed && raw > short.MaxValue ? raw - 0x10000 : raw;
        return (signed * meter.Scale) + meter.Offset;
    }

    private bool? Bit(Channel? channel) => channel is null ? null : (Raw(channel) != 0) != channel.ActiveLow;

    private int Raw(Channel channel)
    {
        foreach (ChannelBlock block in _blocks)
        {
            if (block.Holds(channel))
            {
                return block.Raw(channel);
            }
        }

        throw new InvalidOperationException($"no block holds {channel}");
    }
}
