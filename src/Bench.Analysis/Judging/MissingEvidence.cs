using Bench.Analysis.Sequential;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;

namespace Bench.Analysis.Judging;

/// <summary>What keeps a unit without a fault found from being reusable, in plain sentences.</summary>
internal static class MissingEvidence
{
    /// <summary>What is missing; empty when nothing is.</summary>
    public static List<string> Of(RunFeatures features, IReadOnlyList<Finding> findings, Profile profile)
    {
        // What could not be answered goes first: more moves alone would not answer it.
        List<string> missing = [.. Answers(findings, profile)];
        bool explained = missing.Count > 0;
        missing.AddRange(Moves(features, profile.Demonstration, explained));
        if (features.Ring.Coverage < profile.Demonstration.RingCoverage)
        {
            missing.Add(FormattableString.Invariant(
                $"About {features.Ring.RevolutionsToGo} further revolutions, to test {100 * profile.Demonstration.RingCoverage:0.#} % of the {Tested(profile)}; so far {100 * features.Ring.Coverage:0.#} %."));
            if (RateShortfall.OfPosition(features, profile) is string tooSlow)
            {
                missing.Add(tooSlow);
            }
        }

        if (profile.HomesByIndex && features.Features.FirstOrDefault(f => f.Name == "index.home_shift_counts")?.NotAssessableBecause is string homeless)
        {
            missing.Add($"A home for the counter, without which no port is known: {homeless}. Check the index switch, its wire and [position.index], then run the unit again.");
        }

        return missing;
    }

    private static IEnumerable<string> Answers(IReadOnlyList<Finding> findings, Profile profile)
    {
        foreach (Finding f in findings.Where(f => f.Limit.Severity is Severity.Repair or Severity.Scrap))
        {
            if (f.Decision == FindingDecision.Undecided && Findings.LiesOutside(f))
            {
                yield return $"A decision where the value lies outside its limit by less than its uncertainty; more moves, or a better meter: {f.Statement}";
            }
            else if (f.Decision == FindingDecision.NotAssessable && Essential(f.Feature, profile))
            {
                yield return $"An answer on this: {f.Statement}";
            }
        }
    }

    /// <summary>What a dead sensor is one of.</summary>
    public static string Tested(Profile profile) => profile.Feedback == FeedbackKind.Switches ? "port switches" : "ring";

    // A unit comes back because its feedback is doubted: without an answer on feedback and ring or switches it cannot go
    // out. Nor can one that drew no current, whoever's fault that is.
    private static bool Essential(Feature feature, Profile profile) =>
        InspectionFeatures.Item(feature.Name) is string item ? profile.Inspection.Any(i => i.Id == item && i.Required)
        : feature.Name.StartsWith("provoked.", StringComparison.Ordinal) ? !ProvokedFeatures.IsNotRun(feature)
        : feature.Name is "motion.no_current_moves" or "current.interruptions"
        || feature.Name.StartsWith("feedback.", StringComparison.Ordinal) || feature.Name.StartsWith("ring.", StringComparison.Ordinal)
        || feature.Name.StartsWith("switch.", StringComparison.Ordinal);

    private static IEnumerable<string> Moves(RunFeatures features, Demonstration plan, bool explained)
    {
        DemonstrationResult d = features.Demonstration;
        switch (d.State)
        {
            case SequentialState.Continue:
                double ratio = d.Path.Count > 0 ? d.Path[^1] : 0;
                int more = SequentialTest.ToGo(ratio, d.AcceptAt, Math.Log((1 - plan.P1) / (1 - plan.P0)));
                yield return $"{more} further moves without a failure; {d.Moves} were made and {d.Failed} failed.";
                break;
            case SequentialState.Refuted when !explained:
                yield return $"An explanation of why {d.Failed} of {d.Moves} moves failed ({Why(features)}); no limit names the fault.";
                break;
            case SequentialState.Truncated:
                yield return $"A longer run: {d.Moves} moves, {d.Failed} failed, did not decide.";
                break;
        }
    }

    private static string Why(RunFeatures features) =>
        features.Moves.Select(m => m.FailedBecause).OfType<string>()
            .GroupBy(w => w).OrderByDescending(g => g.Count()).FirstOrDefault()?.Key ?? "no reason recorded";
}
