using System.Text.Json.Serialization;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Cli.Output;

/// <summary>One run as <c>--json</c> prints it (docs/cli.md).</summary>
internal sealed record RunJson
{
    public required Guid Run { get; init; }

    public required string Serial { get; init; }

    public required string Position { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Condition { get; init; }

    public required string Family { get; init; }

    public required RunOutcome Outcome { get; init; }

    public Disposition? Disposition { get; init; }

    public ClaimOutcome? Claim { get; init; }

    public AbortReason? Abort { get; init; }

    public required IReadOnlyList<CauseJson> Causes { get; init; }

    public required IReadOnlyList<FindingJson> Findings { get; init; }

    public required IReadOnlyList<string> Reasons { get; init; }

    public required IReadOnlyList<string> Missing { get; init; }

    public string? NextStep { get; init; }

    public required int Moves { get; init; }

    public required int Samples { get; init; }

    public double? PositionRateHz { get; init; }

    public SamplingTimes? Sampling { get; init; }

    public double? RingCoverage { get; init; }

    public required double DurationS { get; init; }

    public required bool OutputsConfirmedOff { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Packet { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<EntryJson>? Entries { get; init; }

    /// <summary>The result of a run.</summary>
    public static RunJson Of(RunRecord record, string? packet = null) => Of(record, record.Judgement, packet);

    /// <summary>The result of a run under another judgement than its own.</summary>
    public static RunJson Of(RunRecord record, Judgement? judgement, string? packet = null) => new()
    {
        Run = record.Start.Id,
        Serial = record.Start.Return.Serial,
        Position = record.Start.Bench.Position,
        Condition = record.Start.SimulatedCondition,
        Family = record.Start.Profile.Family,
        Outcome = judgement?.Outcome ?? record.Outcome,
        Disposition = judgement?.Disposition,
        Claim = judgement?.Claim,
        Abort = record.Abort,
        Causes = judgement is null ? [] : [.. judgement.Causes.Select(c => new CauseJson(c.Id, c.Probability))],
        Findings = judgement is null ? [] : [.. judgement.Findings.Select(f => FindingJson.Of(f, record.Features))],
        Reasons = judgement?.Reasons ?? (record.AbortText is { } text ? [text] : []),
        Missing = judgement?.Missing ?? [],
        NextStep = judgement?.NextStep,
        Moves = record.Moves.Count,
        Samples = record.Samples,
        PositionRateHz = record.Features?.PositionRateHz,
        Sampling = record.Features?.Sampling,
        RingCoverage = record.Features?.Ring.Coverage,
        DurationS = Math.Round((record.EndedAt - record.Start.StartedAt).TotalSeconds, 3),
        OutputsConfirmedOff = record.OutputsConfirmedOff,
        Packet = packet,
    };
}

/// <summary>A cause as <c>--json</c> prints it.</summary>
internal sealed record CauseJson(string Cause, double Probability);

/// <summary>A finding as <c>--json</c> prints it.</summary>
internal sealed record FindingJson
{
    public required string Feature { get; init; }

    public string? Subject { get; init; }

    public double? Value { get; init; }

    public double? StandardUncertainty { get; init; }

    public double? ExpandedUncertainty { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? DegreesOfFreedom { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<Contribution>? Budget { get; init; }

    public required string Unit { get; init; }

    public double? Lower { get; init; }

    public double? Upper { get; init; }

    public required DecisionRule Rule { get; init; }

    public required Severity Severity { get; init; }

    public required FindingDecision Decision { get; init; }

    public double? ConformityProbability { get; init; }

    public required string Statement { get; init; }

    public static FindingJson Of(Finding finding, RunFeatures? features)
    {
        Feature feature = finding.Feature;
        return new FindingJson
        {
            Feature = feature.Name,
            Subject = feature.Subject,
            Value = feature.Value,
            StandardUncertainty = feature.StandardUncertainty,
            ExpandedUncertainty = feature.ExpandedUncertainty,
            DegreesOfFreedom = feature.DegreesOfFreedom,
            Budget = features?.Features.FirstOrDefault(f => f.Name == feature.Name && f.Subject == feature.Subject)?.Budget,
            Unit = feature.Unit,
            Lower = finding.Limit.Lower,
            Upper = finding.Limit.Upper,
            Rule = finding.Limit.Rule,
            Severity = finding.Limit.Severity,
            Decision = finding.Decision,
            ConformityProbability = finding.ConformityProbability,
            Statement = finding.Statement,
        };
    }
}
