using Bench.Model.BenchFiles;

namespace Bench.Devices.Discovery;

/// <summary>One address asked at one setting.</summary>
/// <param name="Link">The link with its setting.</param>
/// <param name="Address">The address.</param>
/// <param name="Found">What answered; null when nothing did.</param>
public sealed record DiscoveryStep(LinkDescription Link, int Address, DiscoveredDevice? Found);
