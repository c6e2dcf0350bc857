using Bench.Model.Configuration;
using Bench.Model.Features;

namespace Bench.Model.Profiles;

/// <summary>Checks the names of features in a profile.</summary>
internal static class FeatureNames
{
    private static readonly string[] All = [.. FeatureCatalog.All.Select(definition => definition.Name)];

    /// <summary>Refuses a name that is not in the catalog.</summary>
    public static void Expect(Section section, string key, string name)
    {
        if (!FeatureCatalog.Knows(name))
        {
            section.Refuse(key, $"the unknown feature {KeyText.Of(name)}", NearestName.Advice(name, All));
        }
    }
}
