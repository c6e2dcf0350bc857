using Bench.Model.Runs;

namespace Bench.Model.Comparisons;

/// <summary>Two runs held against each other; differences are B minus A.</summary>
public sealed record RunComparison
{
    /// <summary>The run that is held against, usually the earlier.</summary>
    public required SealedRun A { get; init; }

    /// <summary>The run that is compared with it.</summary>
    public required SealedRun B { get; init; }

    /// <summary>Whether both are of one unit, after corrections.</summary>
    public required bool SameUnit { get; init; }

    /// <summary>What the unit's two runs say, in one word.</summary>
    public required ComparisonOutcome Outcome { get; init; }

    /// <summary>Whether both read current by the same meter in the same calibration.</summary>
    public required bool SameCurrentMeter { get; init; }

    /// <summary>Whether both read voltage by the same meter in the same calibration.</summary>
    public required bool SameVoltageMeter { get; init; }

    /// <summary>Whether both were run by the same profile file.</summary>
    public bool SameProfile => A.Record.Start.Profile.Sha256 == B.Record.Start.Profile.Sha256;

    /// <summary>Every feature of either run, worst first.</summary>
    public required IReadOnlyList<FeatureDifference> Features { get; init; }

    /// <summary>The ring's sensors; null when they can't be compared.</summary>
    public SensorChanges? Sensors { get; init; }

    /// <summary>Why sensors can't be compared; null when they are.</summary>
    public string? SensorsBecause { get; init; }

    /// <summary>How many features were tested.</summary>
    public int Tested => Features.Count(f => f.P is not null);
}
