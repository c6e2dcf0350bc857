using System.Runtime.CompilerServices;
using Bench.Devices.Buses;
using Bench.Devices.Feedbacks;
using Bench.Model.Instruments;

namespace Bench.Devices.Streams;

/// <summary>A count in a stream's frames.</summary>
internal sealed class StreamCount(StreamDevice device, string field) : ICountSource
{
    private readonly StreamTap _tap = new(device);
    private readonly int _index = device.Layout.IndexOf(field);
    private readonly double[] _values = new double[device.Layout.Fields];

    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    public async ValueTask<CountReading> ReadAsync(BusClass line, CancellationToken cancel) => Reading(await _tap.ReadAsync(_values, cancel));

    /// <summary>The oldest not taken yet.</summary>
    public bool TryTake(out CountReading reading)
    {
        bool taken = _tap.TryTake(_values, out StreamFrame frame);
        reading = taken ? Reading(frame) : default;
        return taken;
    }

    private CountReading Reading(StreamFrame frame)
    {
        if (frame.Fault is not null)
        {
            return new CountReading(frame.Fault, 0, 0, 0);
        }

        double value = _values[_index];
        if (value == Math.Floor(value) && Math.Abs(value) <= uint.MaxValue)
        {
            return new CountReading(null, (long)value, frame.At, frame.AtUncertainty);
        }

        device.CountDamaged();
        return new CountReading(DeviceFaultKind.Garbled, 0, frame.At, frame.AtUncertainty);
    }
}
