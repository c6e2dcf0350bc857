namespace Bench.Model.Features;

/// <summary>Sightings around the ring (C5). All lists have one entry per count.</summary>
public sealed record RingMap
{
    /// <summary>Passes over each count.</summary>
    public required IReadOnlyList<int> Passes { get; init; }

    /// <summary>Sightings expected of a healthy count at the speeds and poll times there were.</summary>
    public required IReadOnlyList<double> Expected { get; init; }

    /// <summary>Passes in which the count was sighted.</summary>
    public required IReadOnlyList<int> Sightings { get; init; }

    /// <summary>What follows for each count.</summary>
    public required IReadOnlyList<SensorState> States { get; init; }

    /// <summary>Share of the ring tested with the stated power, 0 to 1.</summary>
    public required double Coverage { get; init; }

    /// <summary>Further revolutions, at the rate so far, that would bring coverage to what the profile asks; 0 when there.</summary>
    public required int RevolutionsToGo { get; init; }
}
