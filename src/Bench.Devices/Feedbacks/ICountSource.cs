using Bench.Devices.Buses;

namespace Bench.Devices.Feedbacks;

/// <summary>Where a feedback's number comes from: a register, or a line of text.</summary>
internal interface ICountSource
{
    /// <summary>Reads once, without repeating.</summary>
    ValueTask<CountReading> ReadAsync(BusClass line, CancellationToken cancel);
}
