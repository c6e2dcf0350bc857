using Bench.Model.Profiles;

namespace Bench.Campaigns.Confusion;

/// <summary>The profiles that ship and whose units count by a ring, with their whole routines.</summary>
public static class ShippedFamilies
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<Profile> All { get; } = [Read("nutrient-diverter-4"), Read("zone-selector-3")];

    private static Profile Read(string family) =>
        ProfileReader.Read(File.ReadAllText(Path.Combine(Repository.Root, "profiles", family + ".toml")), family + ".toml");
}
