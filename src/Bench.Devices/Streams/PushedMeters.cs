using Bench.Devices.Meters;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Streams;

/// <summary>
/// Meters whose current is pushed. What is polled beside it is not known for each frame: a voltage is the one last read, inputs are not told.
/// A reading, too, holds the newest frame and what was polled, and its instant is that of what was polled, if anything was.
/// </summary>
/// <param name="polled">Reads the newest frame and all that is polled.</param>
/// <param name="source">Where the current comes from.</param>
/// <param name="position">The position.</param>
internal sealed class PushedMeters(ChannelMeters polled, StreamSource source, UnitPositionDescription position) : IMeters, IPushedReadings<MeterReading>
{
    private double _voltageV;

    /// <inheritdoc/>
    public async ValueTask<MeterReading> ReadAsync(CancellationToken cancel)
    {
        MeterReading reading = await polled.ReadAsync(cancel);
        _voltageV = reading.Ok ? reading.VoltageV : _voltageV;
        return reading;
    }

    /// <inheritdoc/>
    public bool TryTake(out MeterReading reading)
    {
        if (!source.TryTake(out StreamFrame frame))
        {
            reading = default;
            return false;
        }

        double voltage = source.Holds(position.Voltage.Channel, isInput: false) ? Value(position.Voltage) : _voltageV;
        reading = new MeterReading(null, Value(position.Current), voltage, null, null, frame.At, frame.AtUncertainty);
        return true;
    }

    private double Value(MeterDescription meter) => (source.Taken(meter.Channel) * meter.Scale) + meter.Offset;
}
