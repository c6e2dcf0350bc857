using System.Runtime.CompilerServices;
using Bench.Devices.Buses;
using Bench.Devices.Lines;
using Bench.Model.Instruments;

namespace Bench.Devices.Feedbacks;

/// <summary>A count that a device is asked for by a line.</summary>
internal sealed class LineCount(TemplatedDevice device, string channel) : ICountSource
{
    // Beyond this a double no longer tells whole numbers apart.
    private const double Most = 1L << 53;

    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    public async ValueTask<CountReading> ReadAsync(BusClass line, CancellationToken cancel)
    {
        (LineResult result, double value) = await device.AskValueAsync(line, channel, cancel);
        bool whole = Math.Abs(value) <= Most && value == Math.Floor(value);
        DeviceFaultKind? fault = result.Fault ?? (whole ? null : DeviceFaultKind.Garbled);
        return new CountReading(fault, fault is null ? (long)value : 0, result.At, result.AtUncertainty);
    }
}
