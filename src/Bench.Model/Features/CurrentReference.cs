namespace Bench.Model.Features;

/// <summary>
/// Current by angle that healthy units of the same profile showed: something to look at beside a unit's own, never a
/// limit. It belongs to no record: made anew from what a store holds when a packet is written.
/// </summary>
public sealed record CurrentReference
{
    /// <summary>Healthy units behind it.</summary>
    public required int Units { get; init; }

    /// <summary>Units it takes; with fewer there is no band.</summary>
    public required int LeastUnits { get; init; }

    /// <summary>Share of the units that lie within the band at each place, about; 0 to 1.</summary>
    public required double Share { get; init; }

    /// <summary>When the first of them was tested; null with none.</summary>
    public DateTimeOffset? From { get; init; }

    /// <summary>When the last of them was tested; null with none.</summary>
    public DateTimeOffset? To { get; init; }

    /// <summary>The band at each bin of <see cref="AngleProfile"/>; null where too few units were measured. Empty with too few units.</summary>
    public required IReadOnlyList<CurrentRange?> Bins { get; init; }
}
