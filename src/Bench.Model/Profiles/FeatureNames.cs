using Bench.Model.Configuration;
using Bench.Model.Features;

namespace Bench.Model.Profiles;

/// <summary>Checks the names of features in a profile.</summary>
internal static class FeatureNames
{
    private static readonly string[] All = [.. FeatureCatalog.All.Select(definition => definition.Name)];

    /// <summary>Refuses a name that is neither in the catalog nor one of an inspection item.</summary>
    /// <param name="section">Where it stands.</param>
    /// <param name="key">Key it stands at.</param>
    /// <param name="name">The name.</param>
    /// <param name="inspection">Items whose features may be named, too.</param>
    public static void Expect(Section section, string key, string name, IReadOnlyList<InspectionItem>? inspection = null)
    {
        string[] all = inspection is null ? All : [.. All, .. inspection.Select(item => item.Feature)];
        if (!all.Contains(name, StringComparer.Ordinal))
        {
            section.Refuse(key, $"the unknown feature {KeyText.Of(name)}", NearestName.Advice(name, all));
        }
    }
}
