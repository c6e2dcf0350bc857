using System.Globalization;
using System.Text.RegularExpressions;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;

namespace Bench.Analysis.Judging;

/// <summary>A finding as one plain sentence with number, unit, uncertainty and limit.</summary>
internal static partial class FindingStatement
{
    /// <summary>The sentence.</summary>
    /// <param name="feature">What was found.</param>
    /// <param name="limit">What it is held against.</param>
    /// <param name="decision">What came of it.</param>
    /// <param name="cause">The cause, once it is clear and shows in this; null before.</param>
    /// <param name="outside">Of an undecided one: whether it is likelier outside than within, for only such a one can hold a unit.</param>
    public static string Of(Feature feature, Limit limit, FindingDecision decision, FaultMode? cause = null, bool outside = true)
    {
        FeatureDefinition definition = FeatureCatalog.Get(feature.Name);
        string subject = feature.Subject is null ? definition.Title : $"{definition.Title} at {feature.Subject}";
        if (feature.Value is not double value || feature.ExpandedUncertainty is not double u)
        {
            return $"{subject} could not be assessed: {feature.NotAssessableBecause}.";
        }

        if (decision == FindingDecision.DoesNotConform && Sayings.Of(feature.Name) is { } saying)
        {
            return Said(feature, saying, limit, value, u, cause);
        }

        bool share = IsShare(feature.Name);
        string expanded = u > 0 ? $", give or take {Number(u, u, share)}" : "";
        string against = decision switch
        {
            FindingDecision.DoesNotConform => limit.Upper is double most && value > most
                ? $"above {Limits(null, most, feature)}"
                : $"below {Limits(limit.Lower, null, feature)}",
            FindingDecision.Undecided when outside => $"too close to {Limits(limit.Lower, limit.Upper, feature)} to decide",
            FindingDecision.Undecided => $"within {Limits(limit.Lower, limit.Upper, feature)}, but by less than that. This alone does not hold a unit: only a value likelier outside than within could",
            _ => $"within {Limits(limit.Lower, limit.Upper, feature)}",
        };
        return $"{subject}: {Number(value, u, share)}{Unit(feature, value)}{expanded}; {against}.";
    }

    // A feature whose words hold no number is a yes or no, and has no limit to tell.
    private static string Said(Feature feature, Saying saying, Limit limit, double value, double u, FaultMode? cause)
    {
        bool share = IsShare(feature.Name);
        bool counted = saying.Words.Contains("{0}", StringComparison.Ordinal);
        string number = $"{Number(value, u, share)}{Unit(feature, value)}";
        string expanded = counted && u > 0 ? $" (give or take {Number(u, u, share)})" : "";
        string words = Plural().Replace(saying.Words, m => m.Groups[value == 1 ? 1 : 2].Value).Replace("{0}", number, StringComparison.Ordinal);
        string allowed = !counted ? ""
            : limit.Upper is 0 && feature.Unit == "1" ? "; none is allowed"
            : limit.Upper is double most && value > most ? $"; at most {Limit(most, feature)}{Unit(feature, most)} may be"
            : $"; at least {Limit(limit.Lower ?? 0, feature)}{Unit(feature, limit.Lower ?? 0)} must be";
        string where = feature.Subject is null ? "" : $"At {feature.Subject} ";
        string sentence = $"{where}{words}{expanded}";
        return $"{char.ToUpperInvariant(sentence[0])}{sentence[1..]}{allowed}.{Where(saying, cause)}";
    }

    // A clear cause is where to look; which part that is the cause says, and the plot says where on it.
    private static string Where(Saying saying, FaultMode? cause)
    {
        string at = saying.At is null ? "" : $", {saying.At}";
        return cause is not null ? $" Likeliest cause: {char.ToLowerInvariant(cause.Name[0])}{cause.Name[1..]}{at}."
            : saying.Look is null ? ""
            : $" Look at {saying.Look}{at}.";
    }

    [GeneratedRegex(@"\[([^|\]]*)\|([^\]]*)\]")]
    private static partial Regex Plural();

    private static string Limits(double? lower, double? upper, Feature feature) => (lower, upper) switch
    {
        ({ } a, { } b) => $"the limits {Limit(a, feature)} to {Limit(b, feature)}{Unit(feature, b)}",
        ({ } a, null) => $"the least allowed, {Limit(a, feature)}{Unit(feature, a)}",
        (null, { } b) => $"the most allowed, {Limit(b, feature)}{Unit(feature, b)}",
        _ => "no limit",
    };

    private static string Limit(double value, Feature feature) => Number(value, 0, IsShare(feature.Name));

    private static bool IsShare(string feature) =>
        feature.EndsWith("_share", StringComparison.Ordinal) || feature.EndsWith(".coverage", StringComparison.Ordinal);

    private static string Unit(Feature feature, double value) => feature.Unit switch
    {
        "1" => IsShare(feature.Name) ? " %" : "",
        "count" => Math.Abs(value) == 1 ? " count" : " counts",
        "count/s" => " counts/s",
        "d" => Math.Abs(value) == 1 ? " day" : " days",
        _ => " " + feature.Unit,
    };

    // As many decimals as show the uncertainty to two digits (GUM 7.2.6); shares in per cent.
    private static string Number(double value, double expanded, bool share)
    {
        double shown = share ? 100 * value : value;
        double u = (share ? 100 : 1) * expanded;
        if (!(u > 0))
        {
            return shown.ToString("0.####", CultureInfo.InvariantCulture);
        }

        int decimals = Math.Clamp(1 - (int)Math.Floor(Math.Log10(u)), 0, 5);
        return shown.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }
}
