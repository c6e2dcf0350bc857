using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;

namespace Bench.Analysis.Judging;

/// <summary>Features held against a profile's limits.</summary>
internal static class Findings
{
    /// <summary>One finding for every limit and every feature of its name, and those of the arrival inspection, worst first.</summary>
    /// <param name="features">The features; null for a unit that was inspected only.</param>
    /// <param name="profile">The profile.</param>
    /// <param name="unit">The return.</param>
    public static List<Finding> Of(RunFeatures? features, Profile profile, UnitReturn unit)
    {
        List<Finding> findings = [.. InspectionFindings.Of(unit, profile), .. features is null ? [] : Measured(features, profile)];
        return [.. findings.OrderBy(Rank).ThenBy(f => f.ConformityProbability ?? 1)];
    }

    private static List<Finding> Measured(RunFeatures features, Profile profile)
    {
        List<Finding> findings = [];
        foreach (Limit limit in profile.Limits)
        {
            int before = findings.Count;
            foreach (Feature feature in features.Features)
            {
                if (feature.Name == limit.Feature)
                {
                    findings.Add(Hold(feature, limit));
                }
            }

            if (findings.Count == before)
            {
                findings.Add(Hold(Feature.Missing(limit.Feature, "the run did not compute it"), limit));
            }
        }

        return findings;
    }

    /// <summary>
    /// Findings with the likeliest cause known: of those equally bad the one it shows in most goes first, and where the
    /// cause is clear they name it instead of all the places that could be why.
    /// </summary>
    public static List<Finding> LedBy(IReadOnlyList<Finding> findings, FaultMode mode, bool isClear) =>
    [
        .. findings
            .OrderBy(Rank)
            .ThenByDescending(f => f.Decision == FindingDecision.DoesNotConform ? mode.Shows.GetValueOrDefault(f.Feature.Name) : 0)
            .ThenBy(f => f.ConformityProbability ?? 1)
            .Select(f => isClear && f.Decision == FindingDecision.DoesNotConform && mode.Names(f)
                ? f with { Statement = FindingStatement.Of(f.Feature, f.Limit, f.Decision, mode) }
                : f),
    ];

    /// <summary>Whether the value itself lies outside, with the assurance of the rule or without it.</summary>
    public static bool LiesOutside(Finding finding) =>
        finding.Decision == FindingDecision.DoesNotConform
        || (finding.Decision == FindingDecision.Undecided && IsLikelierOutside(finding.ConformityProbability));

    private static bool IsLikelierOutside(double? conformity) => conformity < 0.5;

    private static Finding Hold(Feature feature, Limit limit)
    {
        if (feature.Value is not double value || feature.StandardUncertainty is not double u)
        {
            return new Finding
            {
                Feature = feature,
                Limit = limit,
                Decision = FindingDecision.NotAssessable,
                Statement = FindingStatement.Of(feature, limit, FindingDecision.NotAssessable),
            };
        }

        FindingDecision decision = Conformity.Decide(value, u, limit.Lower, limit.Upper, limit.Rule, feature.CoverageFactor);
        double conformity = Conformity.Probability(value, u, limit.Lower, limit.Upper, feature.DegreesOfFreedom);
        return new Finding
        {
            // The budget stands with the feature in the record, once.
            Feature = feature with { Budget = null },
            Limit = limit,
            Decision = decision,
            ConformityProbability = conformity,
            Statement = FindingStatement.Of(feature, limit, decision, outside: IsLikelierOutside(conformity)),
        };
    }

    private static int Rank(Finding finding) => finding.Decision switch
    {
        FindingDecision.DoesNotConform => finding switch
        {
            _ when BlocksJudging(finding) => 0,
            { Limit.Severity: Severity.Scrap } => 1,
            { Limit.Severity: Severity.Repair } => 2,
            _ => 3,
        },
        FindingDecision.Undecided => LiesOutside(finding) ? 4 : 6,
        FindingDecision.NotAssessable => IsAskedOfAll(finding) ? 5 : 8,
        _ => 7,
    };

    /// <summary>Whether every run is asked for it: a run that did not provoke or uncouple the unit lacks nothing.</summary>
    public static bool IsAskedOfAll(Finding finding) =>
        !UncoupledFeatures.All.Contains(finding.Feature.Name) && !ProvokedFeatures.IsNotRun(finding.Feature);

    /// <summary>Whether a finding outside its limit says that the evidence, not the unit, is at fault.</summary>
    public static bool BlocksJudging(Finding finding) =>
        finding.Limit.Severity == Severity.Hold
        || (FeatureCatalog.Get(finding.Feature.Name).OfBench && finding.Limit.Severity != Severity.Note);
}
