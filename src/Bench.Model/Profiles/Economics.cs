namespace Bench.Model.Profiles;

/// <summary>What replacement and labour cost, in one currency.</summary>
public sealed record Economics
{
    /// <summary>Name of the currency, for print only.</summary>
    public required string Currency { get; init; }

    /// <summary>Cost of a replacement unit.</summary>
    public required double ReplacementCost { get; init; }

    /// <summary>Cost of an hour at the repair bench.</summary>
    public required double LabourPerHour { get; init; }

    /// <summary>Greatest cost of all remedies together, as a share of <see cref="ReplacementCost"/>, 0 to 1.</summary>
    public required double GreatestRepairFraction { get; init; }
}
