namespace Bench.Model.Profiles;

/// <summary>Work that mends a finding.</summary>
public sealed record Remedy
{
    /// <summary>Id, unique in the profile.</summary>
    public required string Id { get; init; }

    /// <summary>What to do, in plain words.</summary>
    public required string Work { get; init; }

    /// <summary>Cost of parts, in the currency of <see cref="Economics"/>.</summary>
    public required double PartsCost { get; init; }

    /// <summary>Time, minutes.</summary>
    public required double Minutes { get; init; }

    /// <summary>Place in the order of work; smaller goes first.</summary>
    public required int Order { get; init; }
}
