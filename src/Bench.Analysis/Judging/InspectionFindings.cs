using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;

namespace Bench.Analysis.Judging;

/// <summary>Answers of the arrival inspection held against the profile: findings like any other, with an answer for a number.</summary>
internal static class InspectionFindings
{
    /// <summary>A finding for every item that has an answer, and for every required one.</summary>
    public static IEnumerable<Finding> Of(UnitReturn unit, Profile profile)
    {
        foreach (InspectionItem item in profile.Inspection)
        {
            string? answer = unit.Answer(item.Id);
            if (answer is not null || item.Required)
            {
                yield return Hold(item, answer ?? InspectionAnswer.NotLooked);
            }
        }
    }

    /// <summary>Whether a finding is of the arrival inspection.</summary>
    public static bool Is(Finding finding) => InspectionFeatures.Item(finding.Feature.Name) is not null;

    private static Finding Hold(InspectionItem item, string answer)
    {
        string title = FeatureCatalog.Get(item.Feature).Title;
        if (!item.Answers.Contains(answer))
        {
            string because = answer == InspectionAnswer.NotLooked ? "nobody looked" : $"the answer '{answer}' is none of the profile's";
            return new Finding
            {
                Feature = Feature.Missing(item.Feature, because),
                Limit = item.Limit,
                Decision = FindingDecision.NotAssessable,
                Statement = $"{title} could not be assessed: {because}.",
            };
        }

        bool conforms = item.Conforms.Contains(answer);
        return new Finding
        {
            Feature = Feature.Of(item.Feature, conforms ? 0 : 1, 0, 1),
            Limit = item.Limit,
            Decision = conforms ? FindingDecision.Conforms : FindingDecision.DoesNotConform,
            ConformityProbability = conforms ? 1 : 0,
            Statement = conforms
                ? $"{title}: {answer}, as on a sound unit."
                : $"On arrival {item.Means} ({item.Id}: {answer}; on a sound unit {string.Join(" or ", item.Conforms)}).",
        };
    }
}
