using Bench.Model.Instruments;

namespace Bench.Devices.Links;

/// <summary>Whether links still are the ones that were open when the watch began.</summary>
/// <param name="links">The links.</param>
internal sealed class LinkWatch(IEnumerable<ReopeningLink> links)
{
    private readonly (string Name, CancellationToken Lost)[] _links = [.. links.Select(l => (l.Name, l.UntilLost))];

    /// <summary>The first link that was lost since, whether it came back or not; null when none was.</summary>
    public DeviceFault? Fault
    {
        get
        {
            foreach ((string name, CancellationToken lost) in _links)
            {
                if (lost.IsCancellationRequested)
                {
                    return new DeviceFault(
                        DeviceFaultKind.LinkLost,
                        "link",
                        name,
                        $"the link '{name}' went away during the run, which ends it, back or not: check adapter, cable and network");
                }
            }

            return null;
        }
    }

    /// <summary>A token that is cancelled when one of the links is lost, or another token is.</summary>
    public CancellationTokenSource Join(CancellationToken other) =>
        CancellationTokenSource.CreateLinkedTokenSource([other, .. _links.Select(l => l.Lost)]);
}
