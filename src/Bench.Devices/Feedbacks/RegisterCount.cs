using System.Runtime.CompilerServices;
using Bench.Devices.Buses;
using Bench.Devices.Modbus.Client;
using Bench.Devices.Modbus.Values;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Feedbacks;

/// <summary>A count in one or two registers.</summary>
internal sealed class RegisterCount(BusDevice device, Channel channel) : ICountSource
{
    private readonly RegisterValue _value = new(channel.Type, channel.Words);
    private readonly ushort[] _words = new ushort[channel.Addresses];

    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    public async ValueTask<CountReading> ReadAsync(BusClass line, CancellationToken cancel)
    {
        ModbusResult result = await device.ReadRegistersAsync(line, channel.Table, channel.Address, _words, retry: false, cancel);
        if (!result.Ok)
        {
            return new CountReading(result.Fault, 0, result.At, result.AtUncertainty);
        }

        // A float of more than 24 bits is no count that could be told from its neighbour; it is far beyond any ring.
        if (_value.Decode(_words) is double count && count == Math.Floor(count) && Math.Abs(count) <= uint.MaxValue)
        {
            return new CountReading(null, (long)count, result.At, result.AtUncertainty);
        }

        _ = device.Damaged("its count is no whole number");
        return new CountReading(DeviceFaultKind.Garbled, 0, result.At, result.AtUncertainty);
    }
}
