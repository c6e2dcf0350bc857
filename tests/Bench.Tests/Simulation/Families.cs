using Bench.Model.Profiles;
using Bench.Tests.Model;

namespace Bench.Tests.Simulation;

/// <summary>The two families of the demo world, from the profiles that ship.</summary>
internal static class Families
{
    public static Profile Diverter { get; } = Read("nutrient-diverter-4");

    public static Profile Selector { get; } = Read("zone-selector-3");

    private static Profile Read(string family) =>
        ProfileReader.Read(RepositoryFiles.Text($"profiles/{family}.toml"), $"{family}.toml");
}
