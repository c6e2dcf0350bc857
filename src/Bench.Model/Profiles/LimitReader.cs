using System.Globalization;
using Bench.Model.Configuration;
using Bench.Model.Features;

namespace Bench.Model.Profiles;

/// <summary>Reads the <c>[[limit]]</c> tables.</summary>
internal static class LimitReader
{
    public static IReadOnlyList<Limit> ReadAll(Section document, UniqueNames remedies)
    {
        UniqueNames features = new("feature");
        return [.. document.Tables("limit", 1).Select(section => Read(section, features, remedies))];
    }

    private static Limit Read(Section section, UniqueNames features, UniqueNames remedies)
    {
        string? feature = section.Text("feature");
        features.Take(section, "feature", feature);
        if (feature is not null)
        {
            FeatureNames.Expect(section, "feature", feature);
        }

        double? lower = section.Number("lower", NumberRange.Any, required: false);
        double? upper = section.Number("upper", NumberRange.Any, required: false);
        if (lower > upper)
        {
            section.Refuse("lower", null, string.Create(CultureInfo.InvariantCulture, $"at most upper ({upper}) is allowed"));
        }

        if (!section.Has("lower") && !section.Has("upper"))
        {
            section.Refuse("", "neither lower nor upper", "at least one of them is required");
        }

        DecisionRule? rule = section.Word<DecisionRule>("rule");
        Severity? severity = section.Word<Severity>("severity");
        if (severity is Severity.Repair or Severity.Scrap && feature is not null && FeatureCatalog.Knows(feature) && FeatureCatalog.Get(feature).OfBench)
        {
            section.Refuse("severity", null, "\"hold\" or \"note\" is allowed: the bench's own condition never condemns a unit");
        }

        if (rule == DecisionRule.Simple && (severity is Severity.Repair or Severity.Scrap) && feature is not null && FeatureCatalog.Knows(feature) && !FeatureCatalog.Get(feature).Counted)
        {
            section.Refuse("rule", null, "\"guarded\" is allowed for repair and scrap: this is a measured value, and none condemns a unit inside its own uncertainty");
        }

        string? remedy = section.Id("remedy", required: severity == Severity.Repair);
        if (severity is Severity.Scrap or Severity.Hold or Severity.Note && section.Has("remedy"))
        {
            section.Refuse("remedy", null, "a remedy goes with severity = \"repair\" only; remove it");
        }
        else
        {
            remedies.Expect(section, "remedy", remedy);
        }

        section.Close();
        return new Limit
        {
            Feature = feature ?? "",
            Lower = lower,
            Upper = upper,
            Rule = rule ?? default,
            Severity = severity ?? default,
            Remedy = remedy,
        };
    }
}
