using Bench.Devices.Links;
using Bench.Model.Instruments;

namespace Bench.Devices.Positions;

/// <summary>
/// Meters that give no reading any more once a link of their position was lost, so that a run ends as a fault of the
/// bench: also when it was the feedback's own link, whose silence would be taken for the unit's.
/// </summary>
internal sealed class WatchedMeters(IMeters meters, LinkWatch watch) : IMeters
{
    public ValueTask<MeterReading> ReadAsync(CancellationToken cancel) => watch.Fault is { } fault
        ? new(new MeterReading(fault, 0, 0, null, null, 0))
        : meters.ReadAsync(cancel);

    public IPushedReadings<MeterReading>? Pushed => meters.Pushed;
}
