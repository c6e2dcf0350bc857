using Bench.Model.Profiles;

namespace Bench.Analysis.Extraction;

/// <summary>Features that are computed only where a profile asks for them.</summary>
internal static class NamedFeatures
{
    /// <summary>Whether a limit of the profile names the feature.</summary>
    public static bool Names(this Profile profile, string feature) =>
        profile.Limits.Any(l => string.Equals(l.Feature, feature, StringComparison.Ordinal));
}
