namespace Bench.SystemTests.Programs;

/// <summary>Tests against the clock on the wall: one at a time, and nothing beside them.</summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class RealTime
{
    public const string Name = "real time";
}
