using Bench.Model.BenchFiles;

namespace Bench.Devices.Discovery;

/// <summary>Something that answered.</summary>
/// <param name="Link">The link with the setting at which it did.</param>
/// <param name="Address">Its address.</param>
/// <param name="Answer">How it answered.</param>
/// <param name="RoundTrip">How long that took; zero when damaged.</param>
public sealed record DiscoveredDevice(LinkDescription Link, int Address, DiscoveredAnswer Answer, TimeSpan RoundTrip);
