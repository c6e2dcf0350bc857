using System.Globalization;
using Bench.Model.Configuration;

namespace Bench.Model.Profiles;

/// <summary>Reads the <c>[[fault]]</c> tables.</summary>
internal static class FaultModeReader
{
    /// <summary>Id of the mode that stands for a healthy unit.</summary>
    public const string None = "none";

    private const double SumTolerance = 1e-6;
    private static readonly NumberRange CheckMinutes = NumberRange.Positive(480);

    public static IReadOnlyList<FaultMode> ReadAll(Section document, UniqueNames remedies, IReadOnlyList<InspectionItem> inspection)
    {
        UniqueNames ids = new("fault mode");
        List<double?> priors = [];
        List<FaultMode> modes = [];
        foreach (Section section in document.Tables("fault", 2))
        {
            string? id = section.Id("id");
            ids.Take(section, "id", id);
            string? name = section.Text("name");
            double? prior = section.Number("prior", NumberRange.InnerShare);
            priors.Add(prior);
            Dictionary<string, double> shows = Shows(section.Table("shows", required: false), inspection);
            if (id == None && shows.Count > 0)
            {
                section.Refuse("shows", null, "the fault mode \"none\" shows nothing; remove it");
            }

            string? nextCheck = section.Text("next_check", required: false);
            string? expect = section.Text("expect", required: false);
            if (section.Has("next_check") != section.Has("expect"))
            {
                section.Refuse("", section.Has("expect") ? "expect alone" : "next_check alone", "next_check and expect go together");
            }

            double? minutes = section.Number("minutes", CheckMinutes, required: false);
            if (section.Has("minutes") && !section.Has("next_check"))
            {
                section.Refuse("minutes", null, "they are those of next_check; remove them, or name the check");
            }

            string? remedy = section.Id("remedy", required: false);
            if (id == None && section.Has("remedy"))
            {
                section.Refuse("remedy", null, "the fault mode \"none\" needs none; remove it");
            }
            else
            {
                remedies.Expect(section, "remedy", remedy);
            }

            bool? explains = section.Flag("explains_feedback_fault");
            section.Close();
            modes.Add(new FaultMode
            {
                Id = id ?? "",
                Name = name ?? "",
                Prior = prior ?? 0,
                Shows = shows,
                NextCheck = nextCheck,
                Expect = expect,
                Minutes = minutes,
                Remedy = remedy,
                ExplainsFeedbackFault = explains ?? false,
            });
        }

        if (modes.Count > 0 && !ids.All.Contains(None))
        {
            document.Refuse("fault", "no mode with id = \"none\"", "one is required: the healthy unit among the returns");
        }

        // A prior that could not be read leaves the sum unknown.
        if (modes.Count > 0 && priors.Sum(p => p ?? double.NaN) is double sum && Math.Abs(sum - 1) > SumTolerance)
        {
            document.Refuse(
                "fault", string.Create(CultureInfo.InvariantCulture, $"priors that sum to {Math.Round(sum, 6)}"), "they must sum to 1");
        }

        return modes;
    }

    private static Dictionary<string, double> Shows(Section? section, IReadOnlyList<InspectionItem> inspection)
    {
        Dictionary<string, double> shows = new(StringComparer.Ordinal);
        foreach ((Section at, string key, string name) in section?.Leaves() ?? [])
        {
            FeatureNames.Expect(at, key, name, inspection);
            if (at.Number(key, NumberRange.InnerShare) is double share && !shows.TryAdd(name, share))
            {
                at.Refuse(key, $"{KeyText.Of(name)} twice", "each feature is allowed once");
            }
        }

        return shows;
    }
}
