using System.Globalization;
using Bench.Model.Comparisons;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Reporting.Text;

namespace Bench.Reporting.Comparison;

/// <summary>What a comparison found, as sentences to be read aloud.</summary>
public static class ComparisonSentences
{
    // Told with their places, where those can be compared.
    private static readonly string[] OfSensors = ["ring.dead_counts", "ring.weak_counts"];

    /// <summary>The outcome in words.</summary>
    public static string Of(ComparisonOutcome outcome) => outcome switch
    {
        ComparisonOutcome.Worse => "what conformed in A does not in B",
        ComparisonOutcome.Better => "what did not conform in A does in B",
        ComparisonOutcome.Mixed => "some of it got better, some worse",
        ComparisonOutcome.ChangedWithinLimits => "something changed by more than chance, and no decision with it",
        ComparisonOutcome.NoDifferenceShown => "nothing changed by more than chance; that is no proof of sameness",
        _ => "one of the runs has nothing that could be compared",
    };

    /// <summary>All sentences, worst first.</summary>
    public static IReadOnlyList<string> Of(RunComparison comparison)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        FeatureDifference[] told = [.. comparison.Features.Where(f => (f.DecisionStep != 0 || f.Outcome == DifferenceOutcome.Differs) && !(comparison.Sensors is not null && OfSensors.Contains(f.Name)))];
        int doubtful = comparison.Features.Count(f => f.Outcome == DifferenceOutcome.Doubtful && f.DecisionStep == 0);
        FeatureDifference[] oneSided = [.. comparison.Features.Where(f => f.Outcome == DifferenceOutcome.NotAssessable && (f.A?.IsAssessed == true || f.B?.IsAssessed == true))];
        IEnumerable<string?> all =
        [
            Verdicts(comparison),
            .. comparison.Sensors is { } lost ? Lost(lost) : [],
            .. told.Where(f => f.DecisionStep != 0).Select(Of),
            .. comparison.Sensors is { } back ? Back(back) : [],
            .. told.Where(f => f.DecisionStep == 0).Select(Of),
            comparison.Tested > 0 && !told.Any(f => f.Outcome == DifferenceOutcome.Differs) ? $"Of {Quantity.Count(comparison.Tested, "feature", "features")} tested none differs by more than chance." : null,
            doubtful > 0 ? $"{Quantity.Count(doubtful, "feature differs", "features differ")} by more than {(doubtful == 1 ? "its" : "their")} own uncertainty, yet among {comparison.Tested} tested that is no surprise." : null,
            .. oneSided.Select(f => $"{Wording.Title((f.B ?? f.A)!)} can't be compared: {f.Because}."),
            comparison.SensorsBecause is { } because ? $"The sensors of the ring can't be compared: {because}." : null,
        ];
        return [.. all.OfType<string>()];
    }

    private static string Verdicts(RunComparison comparison)
    {
        string before = Verdict(comparison.A.Record), after = Verdict(comparison.B.Record);
        return before == after ? $"Both runs came out {before}." : $"A came out {before}; B came out {after}.";
    }

    private static string Verdict(RunRecord record) =>
        Mark.Of(record).Word + (record.Judgement is { } judgement ? $", claim {BenchJson.Word(judgement.Claim)}" : string.Empty);

    private static string Of(FeatureDifference difference)
    {
        string title = Wording.Title((difference.B ?? difference.A)!);
        if (InspectionFeatures.Item(difference.Name) is not null)
        {
            return $"{title}: {(difference.DecisionStep < 0 ? "as of a sound unit in A, not in B" : "not as of a sound unit in A, so in B")}.";
        }

        double from = difference.A!.Value!.Value, to = difference.B!.Value!.Value;
        string unit = difference.B.Unit;
        string change = difference.ExpandedUncertainty is double expanded
            ? $"{Verb(difference)} by {Quantity.Of(Math.Abs(to - from), expanded, unit)}, from {Quantity.Fixed(from, Quantity.Decimals(expanded))} to {Quantity.Fixed(to, Quantity.Decimals(expanded))}"
            : to == from ? $"stayed at {Quantity.Of(to, unit)}"
            : $"{Verb(difference)} from {Quantity.Number(from)} to {Quantity.Of(to, unit)}";
        return $"{title} {change}{Decision(difference)}{Chance(difference)}.";
    }

    private static string Verb(FeatureDifference difference) => difference.Value > 0 ? "rose" : "fell";

    private static string Decision(FeatureDifference difference) => (difference.DecisionStep, difference.DecisionB, difference.Trend) switch
    {
        (-1, _, _) => "; it conformed, and does not any more",
        (1, FindingDecision.Undecided, _) => "; it did not conform, and is too close to its limit to decide",
        (1, _, _) => "; it did not conform, and does now",
        (_, FindingDecision.DoesNotConform, LimitTrend.TowardLimit) => "; it did not conform before, and less so now",
        (_, FindingDecision.DoesNotConform, LimitTrend.AwayFromLimit) => "; nearer to its limit than before, and still beyond it",
        (_, FindingDecision.Conforms, LimitTrend.TowardLimit) => "; nearer to its limit, and still within it",
        (_, FindingDecision.Conforms, LimitTrend.AwayFromLimit) => "; farther within its limit",
        _ => string.Empty,
    };

    private static string Chance(FeatureDifference difference) => difference.Outcome switch
    {
        DifferenceOutcome.Differs when difference.En is double en => string.Create(CultureInfo.InvariantCulture, $" (E_n {Quantity.Fixed(en, 1)})"),
        DifferenceOutcome.Differs => $" (p {DifferenceText.P(difference.AdjustedP)})",
        DifferenceOutcome.Doubtful => ", though among so many features a difference like this is no surprise",
        DifferenceOutcome.NotShown => $", though the difference may be chance (p {DifferenceText.P(difference.P)})",
        _ => string.Empty,
    };

    private static IEnumerable<string?> Lost(SensorChanges sensors)
    {
        yield return Told(sensors.NewlyDead, "sensor was", "sensors were", "seen in A and never in B");
        yield return Told(sensors.NewlyWeak, "sensor is", "sensors are", "seen too seldom in B, and was not in A");
    }

    private static IEnumerable<string?> Back(SensorChanges sensors)
    {
        yield return Told(sensors.NewlySeen, "sensor is", "sensors are", "seen in B that was not, or too seldom, in A");
        yield return Told(sensors.StillFaulty, "sensor is", "sensors are", "never seen, or seen too seldom, in both");
        yield return Told(sensors.TestedOnce, "faulty sensor was", "faulty sensors were", "passed often enough to tell in one of the runs only");
    }

    private static string? Told(IReadOnlyList<int> counts, string one, string many, string what) =>
        counts.Count == 0 ? null : $"{Quantity.Count(counts.Count, one, many)} {(counts.Count == 1 ? what : what.Replace("was not", "were not", StringComparison.Ordinal))}: {CountRanges.Of(counts)}.";
}
