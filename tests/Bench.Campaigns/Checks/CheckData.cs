using System.Globalization;

namespace Bench.Campaigns.Checks;

/// <summary>Reads fixtures/checkdata (its README says where the values are from).</summary>
public static class CheckData
{
    /// <summary>The lines of a file there.</summary>
    /// <exception cref="DirectoryNotFoundException">The program does not run within the repository.</exception>
    public static string[] Lines(string file) => File.ReadAllLines(PathOf(Path.Combine("fixtures", "checkdata", file)));

    /// <summary>Full path of a file of the repository.</summary>
    /// <exception cref="DirectoryNotFoundException">The program does not run within the repository.</exception>
    public static string PathOf(string file)
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Bench.sln")))
        {
            folder = folder.Parent;
        }

        return folder is null
            ? throw new DirectoryNotFoundException($"no Bench.sln above {AppContext.BaseDirectory}; run it from within the repository")
            : Path.Combine(folder.FullName, file);
    }

    /// <summary>A column of a file of comma separated values with one line of names.</summary>
    public static double[] Column(string file, int column) =>
        [.. Lines(file).Skip(1).Where(l => l.Length > 0).Select(l => Number(l.Split(',')[column]))];

    /// <summary>A number as it stands in a file.</summary>
    public static double Number(string text) => double.Parse(text.Trim(), CultureInfo.InvariantCulture);
}
