namespace Bench.Campaigns.Checks;

/// <summary>A univariate reference set of NIST's StRD, as published: certified values in its header, then the data.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Mean">Certified mean.</param>
/// <param name="Deviation">Certified standard deviation, n - 1.</param>
/// <param name="Autocorrelation">Certified lag-1 autocorrelation.</param>
/// <param name="Values">The data.</param>
public sealed record UnivariateSet(string Name, double Mean, double Deviation, double Autocorrelation, double[] Values)
{
    /// <summary>Reads fixtures/checkdata/NAME.dat.</summary>
    public static UnivariateSet Read(string name)
    {
        string[] lines = CheckData.Lines(name + ".dat");
        int data = Array.FindLastIndex(lines, l => l.StartsWith("---", StringComparison.Ordinal));
        return new UnivariateSet(
            name,
            Certified(lines, "Sample Mean"),
            Certified(lines, "Sample Standard Deviation"),
            Certified(lines, "Sample Autocorrelation"),
            [.. lines[(data + 1)..].Where(l => l.Trim().Length > 0).Select(CheckData.Number)]);
    }

    private static double Certified(string[] lines, string name)
    {
        string line = lines.First(l => l.StartsWith(name, StringComparison.Ordinal));
        string text = line[(line.LastIndexOf(':') + 1)..];
        return CheckData.Number(text.Replace("(exact)", "", StringComparison.Ordinal));
    }
}
