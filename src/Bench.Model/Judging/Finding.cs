using Bench.Model.Features;
using Bench.Model.Profiles;

namespace Bench.Model.Judging;

/// <summary>A feature held against a limit, with the evidence.</summary>
public sealed record Finding
{
    /// <summary>The feature.</summary>
    public required Feature Feature { get; init; }

    /// <summary>The limit.</summary>
    public required Limit Limit { get; init; }

    /// <summary>The decision.</summary>
    public required FindingDecision Decision { get; init; }

    /// <summary>Probability that the true value is within the limit (JCGM 106:2012, 7), 0 to 1; null when not assessable.</summary>
    public double? ConformityProbability { get; init; }

    /// <summary>One plain sentence with number, unit, uncertainty and limit.</summary>
    public required string Statement { get; init; }
}
