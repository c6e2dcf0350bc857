namespace Bench.Tests.Model;

/// <summary>Files of the repository that tests read as a user would.</summary>
internal static class RepositoryFiles
{
    /// <summary>The folder that holds the solution.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>The text of a file.</summary>
    public static string Text(string path) => File.ReadAllText(Path.Combine(Root, path));

    /// <summary>Paths, from the root, of all files of a folder whose names end so.</summary>
    public static IEnumerable<string> In(string folder, string ending) =>
        Directory.EnumerateFiles(Path.Combine(Root, folder), "*" + ending)
            .Order(StringComparer.Ordinal)
            .Select(path => Path.GetRelativePath(Root, path));

    private static string FindRoot()
    {
        string? at = AppContext.BaseDirectory;
        while (at is not null && !File.Exists(Path.Combine(at, "Bench.sln")))
        {
            at = Path.GetDirectoryName(at);
        }

        return at ?? throw new InvalidOperationException("the tests must run inside the repository");
    }
}
