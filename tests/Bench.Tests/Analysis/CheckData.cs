using System.Globalization;

namespace Bench.Tests.Analysis;

/// <summary>Reads fixtures/checkdata (its README says where the values are from).</summary>
internal static class CheckData
{
    public static string[] Lines(string file)
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Bench.sln")))
        {
            folder = folder.Parent;
        }

        Assert.NotNull(folder);
        return File.ReadAllLines(Path.Combine(folder.FullName, "fixtures", "checkdata", file));
    }

    /// <summary>A NIST StRD univariate set: certified mean and standard deviation from its header, then the data.</summary>
    public static (double Mean, double Deviation, double[] Values) Nist(string file)
    {
        string[] lines = Lines(file);
        int data = Array.FindLastIndex(lines, l => l.StartsWith("---", StringComparison.Ordinal));
        double[] values = [.. lines[(data + 1)..].Where(l => l.Trim().Length > 0).Select(Number)];
        return (Certified(lines, "Sample Mean"), Certified(lines, "Sample Standard Deviation"), values);
    }

    public static double Number(string text) => double.Parse(text.Trim(), CultureInfo.InvariantCulture);

    private static double Certified(string[] lines, string name)
    {
        string line = lines.First(l => l.StartsWith(name, StringComparison.Ordinal));
        string text = line[(line.LastIndexOf(':') + 1)..];
        return Number(text.Replace("(exact)", "", StringComparison.Ordinal));
    }
}
