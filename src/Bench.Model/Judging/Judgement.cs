namespace Bench.Model.Judging;

/// <summary>One explained verdict.</summary>
public sealed record Judgement
{
    /// <summary>How the run came out; never <see cref="RunOutcome.Aborted"/> here.</summary>
    public required RunOutcome Outcome { get; init; }

    /// <summary>Where the unit goes; null unless judged.</summary>
    public Disposition? Disposition { get; init; }

    /// <summary>What becomes of the claim.</summary>
    public required ClaimOutcome Claim { get; init; }

    /// <summary>Row of the profile's claim table that decided it, from 1; null where the usual table did.</summary>
    public int? ClaimRow { get; init; }

    /// <summary>Findings, worst first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>Causes, likeliest first; probabilities sum to 1.</summary>
    public required IReadOnlyList<Cause> Causes { get; init; }

    /// <summary>Checks by hand worth doing, the one that promises most information a minute first; empty where no cause is in doubt.</summary>
    public IReadOnlyList<HandCheck> Checks { get; init; } = [];

    /// <summary>Reasons in plain sentences, worst first.</summary>
    public required IReadOnlyList<string> Reasons { get; init; }

    /// <summary>For a repairable unit, the work in order.</summary>
    public required IReadOnlyList<WorkItem> Work { get; init; }

    /// <summary>Cost of all work.</summary>
    public required double WorkCost { get; init; }

    /// <summary>For a held run, what moves or checks would decide; else empty.</summary>
    public required IReadOnlyList<string> Missing { get; init; }

    /// <summary>What to do next, one plain sentence.</summary>
    public required string NextStep { get; init; }
}
