using System.Runtime.CompilerServices;
using Bench.Devices.Buses;
using Bench.Devices.Lines;
using Bench.Devices.Scpi;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Meters;

/// <summary>A number that an instrument is asked for by a SCPI query.</summary>
internal sealed class ScpiSource(ScpiDevice device, string query) : IChannelSource
{
    private double _value;

    public bool Holds(Channel channel, bool isInput) => channel.Text == query && channel.Device == device.Line.Name;

    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    public async ValueTask<(DeviceFault? Fault, long At, double AtUncertainty)> ReadAsync(BusClass line, CancellationToken cancel)
    {
        (LineResult result, _value) = await device.QueryNumberAsync(line, query, cancel);
        return (result.Ok ? null : device.Line.Fault(result, query), result.At, result.AtUncertainty);
    }

    public double Value(Channel channel) => _value;
}
