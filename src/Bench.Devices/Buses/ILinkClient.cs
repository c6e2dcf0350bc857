namespace Bench.Devices.Buses;

/// <summary>What speaks on a link, one exchange at a time.</summary>
public interface ILinkClient
{
    /// <summary>Waits until the next exchange may begin; one begun right after it is sent at once.</summary>
    ValueTask ReadyAsync(CancellationToken cancel);
}
