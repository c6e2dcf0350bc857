using System.Runtime.CompilerServices;
using Bench.Devices.Buses;
using Bench.Devices.Lines;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Meters;

/// <summary>A number or an input that a device is asked for by a line.</summary>
internal sealed class LineSource(TemplatedDevice device, string channel, bool isInput) : IChannelSource
{
    private double _value;

    public bool Holds(Channel other, bool input) => input == isInput && other.Text == channel && other.Device == device.Line.Name;

    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    public async ValueTask<(DeviceFault? Fault, long At, double AtUncertainty)> ReadAsync(BusClass line, CancellationToken cancel)
    {
        LineResult result;
        if (isInput)
        {
            (result, bool on) = await device.AskStateAsync(line, channel, retry: false, cancel);
            _value = on ? 1 : 0;
        }
        else
        {
            (result, _value) = await device.AskValueAsync(line, channel, cancel);
        }

        return (result.Ok ? null : device.Line.Fault(result, $"for {channel}"), result.At, result.AtUncertainty);
    }

    public double Value(Channel other) => _value;
}
