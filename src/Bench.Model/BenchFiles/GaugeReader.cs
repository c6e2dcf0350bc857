using Bench.Model.Configuration;
using Bench.Model.Features;

namespace Bench.Model.BenchFiles;

/// <summary>Reads the <c>[[gauge]]</c> tables.</summary>
internal static class GaugeReader
{
    private static readonly string[] Measured = [.. FeatureCatalog.All.Where(d => !d.Counted).Select(d => d.Name)];

    public static IReadOnlyList<GaugeDescription> ReadAll(Section document, UniqueNames positions)
    {
        UniqueNames taken = new("feature of a position");
        return [.. document.Tables("gauge").Select(section => Read(section, positions, taken))];
    }

    private static GaugeDescription Read(Section section, UniqueNames positions, UniqueNames taken)
    {
        string? feature = section.Text("feature");
        if (feature is not null && !FeatureCatalog.Knows(feature))
        {
            section.Refuse("feature", $"the unknown feature {KeyText.Of(feature)}", NearestName.Advice(feature, Measured));
        }
        else if (feature is not null && FeatureCatalog.Get(feature).Counted)
        {
            section.Refuse("feature", null, "a measured feature is allowed: this one is counted, and a count has no uncertainty");
        }

        string? position = section.Id("position", required: false);
        positions.Expect(section, "position", position);
        taken.Take(section, "feature", feature is null ? null : $"{feature} {position}");
        double? uncertainty = section.Number("standard_uncertainty", NumberRange.Positive(1e6));
        DateOnly? found = section.Date("found_on");
        DateOnly? due = section.Date("due_on");
        if (due <= found)
        {
            section.Refuse("due_on", null, "a day after found_on is allowed");
        }

        string? study = section.Text("study");
        section.Close();
        return new GaugeDescription
        {
            Feature = feature ?? "",
            Position = position,
            StandardUncertainty = uncertainty ?? 0,
            FoundOn = found ?? default,
            DueOn = due ?? default,
            Study = study ?? "",
        };
    }
}
