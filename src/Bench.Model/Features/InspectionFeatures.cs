namespace Bench.Model.Features;

/// <summary>Names of the features that stand for items of a profile's arrival inspection. No trace is behind them.</summary>
public static class InspectionFeatures
{
    private const string Prefix = "inspection.";

    /// <summary>The name for an item.</summary>
    /// <param name="item">Id of the item.</param>
    public static string Of(string item) => Prefix + item;

    /// <summary>The id of the item that a feature stands for; null for any other feature.</summary>
    public static string? Item(string feature)
    {
        ArgumentNullException.ThrowIfNull(feature);
        return feature.StartsWith(Prefix, StringComparison.Ordinal) && feature.Length > Prefix.Length ? feature[Prefix.Length..] : null;
    }

    /// <summary>The definition of an item's feature.</summary>
    internal static FeatureDefinition Define(string item) => new(
        Of(item), "1", $"Arrival inspection: {item.Replace('-', ' ')}", "0 when the answer is one of a sound unit, else 1.", Counted: true);
}
