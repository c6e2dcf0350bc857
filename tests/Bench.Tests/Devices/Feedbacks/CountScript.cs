using Bench.Devices.Buses;
using Bench.Devices.Feedbacks;
using Bench.Model.Instruments;

namespace Bench.Tests.Devices.Feedbacks;

/// <summary>Readings that are set by a test.</summary>
internal sealed class CountScript : ICountSource
{
    public CountReading Next { get; set; }

    public ValueTask<CountReading> ReadAsync(BusClass line, CancellationToken cancel) => ValueTask.FromResult(Next);

    public static CountReading Of(long value) => new(null, value, 7, 0.001);

    public static CountReading Failed(DeviceFaultKind kind) => new(kind, 0, 0, 0);
}
