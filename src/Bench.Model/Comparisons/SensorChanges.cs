namespace Bench.Model.Comparisons;

/// <summary>What became of the ring's sensors from one run to another: counts of the ring, rising.</summary>
public sealed record SensorChanges
{
    /// <summary>Never seen now, seen before.</summary>
    public required IReadOnlyList<int> NewlyDead { get; init; }

    /// <summary>Seen too seldom now, seen as often as sampling allows before.</summary>
    public required IReadOnlyList<int> NewlyWeak { get; init; }

    /// <summary>Seen now, never seen or seen too seldom before.</summary>
    public required IReadOnlyList<int> NewlySeen { get; init; }

    /// <summary>Never seen or seen too seldom in both.</summary>
    public required IReadOnlyList<int> StillFaulty { get; init; }

    /// <summary>Never seen or seen too seldom in one, passed too seldom in the other: it can't be told whether they changed.</summary>
    public required IReadOnlyList<int> TestedOnce { get; init; }
}
