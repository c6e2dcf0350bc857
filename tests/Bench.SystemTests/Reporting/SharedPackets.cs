namespace Bench.SystemTests.Reporting;

/// <summary>Binds the packets to their tests.</summary>
[CollectionDefinition(DemoPackets.Collection)]
public sealed class SharedPackets : ICollectionFixture<DemoPackets>;
