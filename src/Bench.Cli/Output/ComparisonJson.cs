using Bench.Model.Comparisons;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Reporting.Comparison;

namespace Bench.Cli.Output;

/// <summary>A comparison as <c>--json</c> prints it (docs/cli.md).</summary>
internal sealed record ComparisonJson(
    ComparedRunJson A,
    ComparedRunJson B,
    bool SameUnit,
    ComparisonOutcome Outcome,
    IReadOnlyList<string> Conditions,
    IReadOnlyList<string> Found,
    IReadOnlyList<string> Assumed,
    int Tested,
    SensorChanges? Sensors,
    string? SensorsNotComparedBecause,
    IReadOnlyList<DifferenceJson> Features,
    string? Packet)
{
    /// <summary>Of a comparison.</summary>
    /// <param name="comparison">The comparison.</param>
    /// <param name="packet">File it was written to; null when none was.</param>
    public static ComparisonJson Of(RunComparison comparison, string? packet) => new(
        ComparedRunJson.Of(comparison.A),
        ComparedRunJson.Of(comparison.B),
        comparison.SameUnit,
        comparison.Outcome,
        ComparisonConditions.Differing(comparison),
        ComparisonSentences.Of(comparison),
        ComparisonConditions.Assumed(comparison),
        comparison.Tested,
        comparison.Sensors,
        comparison.SensorsBecause,
        [.. comparison.Features.Select(DifferenceJson.Of)],
        packet);
}

/// <summary>One of two runs as <c>--json</c> prints it.</summary>
internal sealed record ComparedRunJson(
    Guid Run,
    string Serial,
    DateTimeOffset StartedAt,
    string Family,
    string ProfileVersion,
    string ProfileSha256,
    string Bench,
    string Position,
    bool Simulated,
    string Hash,
    RunOutcome Outcome,
    Disposition? Disposition,
    ClaimOutcome? Claim,
    int? CountedMoves,
    int? FailedMoves)
{
    public static ComparedRunJson Of(SealedRun run)
    {
        RunRecord record = run.Record;
        RunStart start = record.Start;
        DemonstrationResult? moves = record.Features?.Demonstration;
        return new(
            start.Id, run.Return.Serial, start.StartedAt, start.Profile.Family, start.Profile.Version, start.Profile.Sha256, start.Bench.Name,
            start.Bench.Position, start.Simulated, run.Hash, record.Outcome, record.Judgement?.Disposition, record.Judgement?.Claim, moves?.Moves, moves?.Failed);
    }
}

/// <summary>A feature's difference as <c>--json</c> prints it.</summary>
internal sealed record DifferenceJson(
    string Feature,
    string? Subject,
    string Unit,
    DifferenceOutcome Outcome,
    ComparedValueJson? A,
    ComparedValueJson? B,
    double? Difference,
    double? ExpandedUncertainty,
    double? DegreesOfFreedom,
    double? En,
    DifferenceTest Test,
    double? P,
    double? AdjustedP,
    IReadOnlyList<string> SharedSources,
    double? Lower,
    double? Upper,
    LimitTrend Trend,
    string? Because)
{
    public static DifferenceJson Of(FeatureDifference f) => new(
        f.Name, f.Subject, (f.B ?? f.A)!.Unit, f.Outcome, ComparedValueJson.Of(f.A, f.DecisionA), ComparedValueJson.Of(f.B, f.DecisionB), f.Value,
        f.ExpandedUncertainty, f.DegreesOfFreedom, f.En, f.Test, f.P, f.AdjustedP, f.SharedSources, f.Limit?.Lower, f.Limit?.Upper, f.Trend, f.Because);
}

/// <summary>A feature in one of two runs as <c>--json</c> prints it.</summary>
internal sealed record ComparedValueJson(double? Value, double? ExpandedUncertainty, int Observations, FindingDecision? Decision)
{
    public static ComparedValueJson? Of(Feature? feature, FindingDecision? decision) =>
        feature is null ? null : new(feature.Value, feature.ExpandedUncertainty, feature.Observations, decision);
}
