using System.Globalization;
using Bench.Model.Comparisons;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Reporting.Text;

namespace Bench.Reporting.Comparison;

/// <summary>The cells of a feature's difference as people read them.</summary>
internal static class DifferenceText
{
    /// <summary>The feature's value in one run, with its U; an answer in words where it is one.</summary>
    public static string Value(Feature? feature, UnitReturn unit) =>
        feature is null ? "–"
        : InspectionFeatures.Item(feature.Name) is string item ? unit.Answer(item) ?? InspectionAnswer.NotLooked
        : Quantity.Of(feature);

    /// <summary>B minus A with its U and a sign; a dash where there is none.</summary>
    public static string Of(FeatureDifference difference)
    {
        if (difference.Value is not double value || InspectionFeatures.Item(difference.Name) is not null)
        {
            return "–";
        }

        string unit = difference.B!.Unit;
        string text = difference.ExpandedUncertainty is double expanded ? Quantity.Of(value, expanded, unit) : Quantity.Of(value, unit);
        return value > 0 ? "+" + text : text;
    }

    /// <summary>E_n to two decimals; a dash where there is none.</summary>
    public static string En(FeatureDifference difference) => difference.En is double en ? Quantity.Fixed(en, 2) : "–";

    /// <summary>A p-value: two decimals, three below 0.1, small ones bounded.</summary>
    public static string P(double? p) => p switch
    {
        null => "–",
        < 0.001 => "<\u00A00.001",
        < 0.1 => p.Value.ToString("0.000", CultureInfo.InvariantCulture),
        _ => p.Value.ToString("0.00", CultureInfo.InvariantCulture),
    };

    /// <summary>The limit, where there is one.</summary>
    public static string Limit(FeatureDifference difference, Profile profile) =>
        profile.Inspection.FirstOrDefault(i => i.Feature == difference.Name) is { } item ? string.Join(", ", item.Conforms)
        : difference.Limit is { } limit ? Wording.Of(limit, (difference.B ?? difference.A)!.Unit) : "none";
}
