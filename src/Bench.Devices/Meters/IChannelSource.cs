using Bench.Devices.Buses;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Meters;

/// <summary>What one exchange with one device brings: the values of one or more channels.</summary>
internal interface IChannelSource
{
    /// <summary>Whether a channel is read by it.</summary>
    bool Holds(Channel channel);

    /// <summary>Reads once.</summary>
    /// <returns>The fault, null when there is none, with the instant of the values.</returns>
    ValueTask<(DeviceFault? Fault, long At)> ReadAsync(BusClass line, CancellationToken cancel);

    /// <summary>The value of a channel as last read, before scale: a whole number of a register, 0 or 1 of a bit, a number that came as text.</summary>
    double Value(Channel channel, bool signed);
}
