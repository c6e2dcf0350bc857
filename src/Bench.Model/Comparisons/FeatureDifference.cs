using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;

namespace Bench.Model.Comparisons;

/// <summary>One feature in two runs, A first: what it was, what it is, and whether that is more than chance.</summary>
public sealed record FeatureDifference
{
    /// <summary>The feature in A; null when A has none of that name and subject.</summary>
    public required Feature? A { get; init; }

    /// <summary>The feature in B; null when B has none of that name and subject.</summary>
    public required Feature? B { get; init; }

    /// <summary>The limit both are held against here, that of B's profile; null when it has none.</summary>
    public Limit? Limit { get; init; }

    /// <summary>Decision on A by <see cref="Limit"/>; null without one.</summary>
    public FindingDecision? DecisionA { get; init; }

    /// <summary>Decision on B; null without a limit.</summary>
    public FindingDecision? DecisionB { get; init; }

    /// <summary>B minus A, in the feature's unit; null when not assessable.</summary>
    public double? Value { get; init; }

    /// <summary>Expanded uncertainty U of the difference, about 95 %; null when it has none.</summary>
    public double? ExpandedUncertainty { get; init; }

    /// <summary>Effective degrees of freedom behind U; null for infinite, or where there is no U.</summary>
    public double? DegreesOfFreedom { get; init; }

    /// <summary>E_n = difference / U (ISO 13528:2015, 9.7); beyond 1 either way it is more than its own uncertainty. Null without U.</summary>
    public double? En { get; init; }

    /// <summary>Sources of uncertainty that both runs share, so that only what they do differently to both is left in U.</summary>
    public IReadOnlyList<string> SharedSources { get; init; } = [];

    /// <summary>How it is tested.</summary>
    public required DifferenceTest Test { get; init; }

    /// <summary>Two-sided p-value, of this feature alone; null when not tested.</summary>
    public double? P { get; init; }

    /// <summary>p-value with all features compared allowed for (Holm 1979); null when not tested.</summary>
    public double? AdjustedP { get; init; }

    /// <summary>Whether it differs.</summary>
    public required DifferenceOutcome Outcome { get; init; }

    /// <summary>Where the difference leads.</summary>
    public LimitTrend Trend { get; init; }

    /// <summary>Why there is no difference, or no test of one; null when there is.</summary>
    public string? Because { get; init; }

    /// <summary>Name of the feature.</summary>
    public string Name => (B ?? A)!.Name;

    /// <summary>What it is about where there are several; null otherwise.</summary>
    public string? Subject => (B ?? A)!.Subject;

    /// <summary>Whether a decision fell from conforming, or rose to it: −1, 1; 0 for neither.</summary>
    public int DecisionStep => (DecisionA, DecisionB) switch
    {
        (FindingDecision.Conforms or FindingDecision.Undecided, FindingDecision.DoesNotConform) => -1,
        (FindingDecision.DoesNotConform, FindingDecision.Conforms or FindingDecision.Undecided) => 1,
        _ => 0,
    };
}
