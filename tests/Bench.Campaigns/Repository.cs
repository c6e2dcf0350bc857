namespace Bench.Campaigns;

/// <summary>Where the repository is that this program was built from.</summary>
internal static class Repository
{
    /// <summary>Its folder.</summary>
    public static string Root { get; } = Find();

    private static string Find()
    {
        for (DirectoryInfo? at = new(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            if (File.Exists(Path.Combine(at.FullName, "Bench.sln")))
            {
                return at.FullName;
            }
        }

        throw new InvalidOperationException("run this from within the repository: no Bench.sln above " + AppContext.BaseDirectory);
    }
}
