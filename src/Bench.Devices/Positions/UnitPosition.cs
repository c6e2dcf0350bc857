using Bench.Model.Instruments;

namespace Bench.Devices.Positions;

/// <summary>One unit position of an open bench. Its devices stay open until the bench is closed.</summary>
internal sealed class UnitPosition(
    string name, IDrive drive, IReadOnlyList<IWatchdog> watchdogs, IFeedback feedback, IMeters meters, IReadOnlyList<Func<LinkCounts>> counts) : IUnitPosition
{
    public string Name => name;

    public IDrive Drive => drive;

    public IReadOnlyList<IWatchdog> Watchdogs => watchdogs;

    public IFeedback Feedback => feedback;

    public IMeters Meters => meters;

    public IReadOnlyList<LinkCounts> Counts => [.. counts.Select(c => c())];

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;
}
