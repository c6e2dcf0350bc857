using Bench.Analysis.Trends;

namespace Bench.Campaigns.Checks;

/// <summary>Slope and monotonic trend.</summary>
internal static class TrendChecks
{
    private const string Trend = "R 4.2.2 package trend 1.1.6";

    private static readonly (string Case, string Source, double[] Values, double S, double Variance, double Z, double Digits)[] Published =
    [
        ("p. 109", "EPA QA/G-9S", [10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15], 22, 155.33, 1.685, 4),
        ("p. 109", Trend, [10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15], 22, 155.333333333, 1.6849497897538, 11),
        ("5 values", "Wisconsin natural resources, table; R", [100, 50, 85, 75, 50], -5, 15.6666666667, -1.01058230528, 11),
        ("ties 3, 2, 4", Trend, [17, 14, 39, 16, 39, 14, 14, 39, 17, 39], 7, 111.666666667, 0.567792268089, 11),
        ("no ties", Trend, [5, 6, 11, 8, 10], 6, 16.6666666667, 1.22474487139, 11),
    ];

    /// <summary>The checks.</summary>
    public static IEnumerable<Check> All()
    {
        foreach (var (at, source, values, s, variance, z, digits) in Published)
        {
            MannKendall test = MannKendall.Of(values);
            yield return new("Mann-Kendall S", at, source, s, test.S, 15);
            yield return new("Mann-Kendall variance", at, source, variance, test.Variance, digits);
            yield return new("Mann-Kendall Z", at, source, z, test.Z, digits);
        }

        double[] year = CheckData.Column("nile.csv", 0);
        double[] flow = CheckData.Column("nile.csv", 1);
        MannKendall nile = MannKendall.Of(flow);
        yield return new("Mann-Kendall S", "Nile", Trend, -1387, nile.S, 15);
        yield return new("Mann-Kendall variance", "Nile", Trend, 112728.333333333, nile.Variance, 12);
        yield return new("Mann-Kendall Z", "Nile", Trend, -4.12806652284, nile.Z, 11);
        yield return new("Mann-Kendall p", "Nile", Trend, 3.65826292166e-05, nile.Probability, 9);
        TheilSen slope = TheilSen.Of(year, flow);
        const string two = "R trend; scipy 1.10.1 theilslopes";
        yield return new("Theil-Sen slope", "Nile", two, -2.6, slope.Slope, 14);
        yield return new("Theil-Sen 95 %, lower", "Nile", two, -3.627906976744186, slope.Lower, 14);
        yield return new("Theil-Sen 95 %, upper", "Nile", two, -1.4285714285714286, slope.Upper, 14);
        TheilSen epa = TheilSen.Of([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11], Published[0].Values);
        yield return new("Theil-Sen slope", "p. 109", Trend, 1, epa.Slope, 14);
        yield return new("Theil-Sen 95 %, lower", "p. 109", Trend, 0, epa.Lower, 14);
        yield return new("Theil-Sen 95 %, upper", "p. 109", Trend, 2, epa.Upper, 14);
    }
}
