using Bench.Devices.Buses;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;

namespace Bench.Devices.Feedbacks;

/// <summary>A count in one register.</summary>
internal sealed class RegisterCount(BusDevice device, Channel channel) : ICountSource
{
    private readonly ushort[] _word = new ushort[1];

    public async ValueTask<CountReading> ReadAsync(BusClass line, CancellationToken cancel)
    {
        ModbusResult result = await device.ReadRegistersAsync(line, channel.Table, channel.Address, _word, retry: false, cancel);
        return new CountReading(result.Fault, result.Ok ? _word[0] : 0, result.At, result.AtUncertainty);
    }
}
