using Bench.Devices.Buses;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Meters;

/// <summary>What one exchange with one device brings: the values of one or more channels.</summary>
internal interface IChannelSource
{
    /// <summary>Whether a channel is read by it.</summary>
    /// <param name="channel">The channel.</param>
    /// <param name="isInput">Whether it is asked whether it is on, rather than for a number; one name may be both on a device that speaks lines.</param>
    bool Holds(Channel channel, bool isInput);

    /// <summary>Reads once.</summary>
    /// <returns>The fault, null when there is none, with the instant of the values and its half-width in seconds.</returns>
    ValueTask<(DeviceFault? Fault, long At, double AtUncertainty)> ReadAsync(BusClass line, CancellationToken cancel);

    /// <summary>The value of a channel as last read, before scale: what registers hold, 0 or 1 of a bit, a number that came as text. Finite.</summary>
    double Value(Channel channel);
}
