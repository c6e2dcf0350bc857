namespace Bench.SystemTests.Programs;

/// <summary>Files of the repository that tests give to programs.</summary>
public static class RepositoryFolder
{
    /// <summary>Root of the repository.</summary>
    public static string Root { get; } = Find();

    /// <summary>The diverter as it ships.</summary>
    public static string Diverter { get; } = At("profiles", "nutrient-diverter-4.toml");

    /// <summary>The diverter with a routine short enough for real time.</summary>
    public static string ShortDiverter { get; } = At("fixtures", "profiles", "nutrient-diverter-4-short.toml");

    /// <summary>Path of a file.</summary>
    public static string At(params string[] names) => Path.Combine([Root, .. names]);

    private static string Find()
    {
        DirectoryInfo? at = new(AppContext.BaseDirectory);
        while (at is not null && !File.Exists(Path.Combine(at.FullName, "Bench.sln")))
        {
            at = at.Parent;
        }

        return at?.FullName ?? throw new DirectoryNotFoundException("the tests must run from a build inside the repository");
    }
}
