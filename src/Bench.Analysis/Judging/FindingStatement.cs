using System.Globalization;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;

namespace Bench.Analysis.Judging;

/// <summary>A finding as one plain sentence with number, unit, uncertainty and limit.</summary>
internal static class FindingStatement
{
    /// <summary>The sentence.</summary>
    public static string Of(Feature feature, Limit limit, FindingDecision decision)
    {
        FeatureDefinition definition = FeatureCatalog.Get(feature.Name);
        string subject = feature.Subject is null ? definition.Title : $"{definition.Title} at {feature.Subject}";
        if (feature.Value is not double value || feature.StandardUncertainty is not double u)
        {
            return $"{subject} could not be assessed: {feature.NotAssessableBecause}.";
        }

        double expanded = Conformity.GuardFactor * u;
        string unit = Unit(feature.Unit, value);
        string sure = expanded > 0 ? $", give or take {Number(expanded, expanded)}" : "";
        string against = decision switch
        {
            FindingDecision.Conforms => $"within {Range(limit)}",
            FindingDecision.Undecided => $"too close to {Range(limit)} to decide",
            _ => limit.Upper is double most && value > most
                ? $"above the limit of {Exact(most)}{Unit(feature.Unit, most)}"
                : $"below the limit of {Exact(limit.Lower ?? 0)}{Unit(feature.Unit, limit.Lower ?? 0)}",
        };
        return $"{subject} is {Number(value, expanded)}{unit}{sure}, {against}.";
    }

    private static string Range(Limit limit) => (limit.Lower, limit.Upper) switch
    {
        ({ } a, { } b) => $"the limits of {Exact(a)} to {Exact(b)}",
        ({ } a, null) => $"the limit of at least {Exact(a)}",
        (null, { } b) => $"the limit of at most {Exact(b)}",
        _ => "no limit",
    };

    private static string Unit(string unit, double value) => unit switch
    {
        "1" => "",
        "count" => Math.Abs(value) == 1 ? " count" : " counts",
        "count/s" => " counts/s",
        "d" => Math.Abs(value) == 1 ? " day" : " days",
        _ => " " + unit,
    };

    // As many decimals as show the uncertainty to two digits (GUM 7.2.6).
    private static string Number(double value, double uncertainty)
    {
        if (!(uncertainty > 0))
        {
            return Exact(value);
        }

        int decimals = Math.Clamp(1 - (int)Math.Floor(Math.Log10(uncertainty)), 0, 6);
        return value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }

    private static string Exact(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);
}
