using System.Runtime.CompilerServices;
using Bench.Devices.Buses;
using Bench.Devices.Meters;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Streams;

/// <summary>Numbers of the newest frame of a stream, and all frames between.</summary>
internal sealed class StreamSource(StreamDevice device) : IChannelSource
{
    private readonly StreamTap _tap = new(device);
    private readonly double[] _newest = new double[device.Layout.Fields];
    private readonly double[] _taken = new double[device.Layout.Fields];

    public bool Holds(Channel channel, bool isInput) => !isInput && channel.Device == device.Name;

    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    public async ValueTask<(DeviceFault? Fault, long At, double AtUncertainty)> ReadAsync(BusClass line, CancellationToken cancel)
    {
        StreamFrame frame = await _tap.ReadAsync(_newest, cancel);
        return (frame.Fault is DeviceFaultKind kind ? device.Fault(kind) : null, frame.At, frame.AtUncertainty);
    }

    public double Value(Channel channel) => _newest[device.Layout.IndexOf(channel.Text!)];

    /// <summary>Takes the oldest frame not taken yet, for <see cref="Taken"/>.</summary>
    public bool TryTake(out StreamFrame frame) => _tap.TryTake(_taken, out frame);

    /// <summary>A number of the frame last taken.</summary>
    public double Taken(Channel channel) => _taken[device.Layout.IndexOf(channel.Text!)];
}
