using Bench.Analysis.Statistics;
using Bench.Analysis.Trends;

namespace Bench.Campaigns.Checks;

/// <summary>Changes of level: Pettitt, Kolmogorov's tail, CUSUM and its run length.</summary>
internal static class ChangeChecks
{
    private const string Spc = "R 4.2.2 package spc 0.6.7, xcusum.arl";

    private static readonly (double Shift, double Four, double Five)[] TwoSided =
    [
        (0, 167.683788814, 465.443506032), (0.25, 74.224027885, 139.493689772), (0.5, 26.6302030889, 37.9961431894),
        (0.75, 13.2850883752, 17.0483259429), (1, 8.3831318705, 10.3759699216), (1.5, 4.74716819947, 5.74721770343),
        (2, 3.34277012943, 4.00887106103), (2.5, 2.61951891151, 3.11368839147), (3, 2.19448090861, 2.57325205145),
        (4, 1.70845716329, 2.01256752328),
    ];

    /// <summary>The checks.</summary>
    public static IEnumerable<Check> All() => [.. Pettitts(), .. Tails(), .. Sums(), .. RunLengths()];

    private static IEnumerable<Check> Pettitts()
    {
        Pettitt page = Pettitt.Of(CheckData.Column("page1955_pettitt1979.csv", 1));
        yield return new("Pettitt K", "Page 1955", "Pettitt 1979, table 1", 232, page.K, 15);
        yield return new("Pettitt, values before", "Page 1955", "Pettitt 1979", 17, page.Before, 15);
        yield return new("Pettitt p", "Page 1955", "Pettitt 1979", 0.014, page.Probability, 1.4);
        yield return new("Pettitt p", "Page 1955", "R trend, first term of the series", 0.0145555975398, page.Probability, 6);
        Pettitt nile = Pettitt.Of(CheckData.Column("nile.csv", 1));
        yield return new("Pettitt K", "Nile", "R 4.2.2 package trend", 1617, nile.K, 15);
        yield return new("Pettitt, values before", "Nile, change after 1898", "R trend; strucchange 1.5.3 agrees", 28, nile.Before, 15);
        yield return new("Pettitt p", "Nile", "R 4.2.2 package trend", 3.59102217694e-07, nile.Probability, 11);
    }

    private static IEnumerable<Check> Tails()
    {
        const string smirnov = "Smirnov 1948, table (from memory)";
        yield return new("Kolmogorov tail", "1.3580986393225507", "scipy 1.10.1 kstwobign.isf", 0.05, Kolmogorov.Tail(1.3580986393225507), 12);
        yield return new("Kolmogorov tail", "1.63", smirnov, 0.009846, Kolmogorov.Tail(1.63), 4);
        yield return new("Kolmogorov tail", "0.5", smirnov, 0.963945, Kolmogorov.Tail(0.5), 6);
        yield return new("Kolmogorov tail", "1.0", smirnov, 0.270000, Kolmogorov.Tail(1.0), 5);
        yield return new("Kolmogorov tail", "2.95176610266", "R strucchange 1.5.3 sctest, Nile", 5.408553e-08, Kolmogorov.Tail(2.95176610266), 6.5);
    }

    private static IEnumerable<Check> Sums()
    {
        // NIST e-Handbook 6.3.2.3: the example's data and k, h are from memory, the sums from R with them.
        double[] x =
        [
            324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600,
            324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350,
        ];
        const string handbook = "NIST e-Handbook 6.3.2.3 (data from memory), R";
        Cusum sums = Cusum.Of(x, 325, 0.3175, 4.1959);
        yield return new("CUSUM, up at 13", "20 values", handbook, 3.0075, sums.Up[12], 11);
        yield return new("CUSUM, up at 20", "20 values", handbook, 19.035, sums.Up[19], 11);
        yield return new("CUSUM, down at 8", "20 values", handbook, 0.715, sums.Down[7], 11);
        yield return new("CUSUM, down at 11", "20 values", handbook, 0.3125, sums.Down[10], 11);
        yield return new("CUSUM, first signal", "20 values", handbook, 14, sums.FirstSignal + 1 ?? 0, 15);
        yield return new("CUSUM, onset", "20 values", handbook, 13, sums.Onset + 1 ?? 0, 15);
    }

    private static IEnumerable<Check> RunLengths()
    {
        yield return new("CUSUM run length, one side", "k 0.5, h 4, in control", Spc, 335.367577628, CusumRunLength.OneSided(0.5, 4, 0), 9);
        yield return new("CUSUM run length, one side", "k 0.5, h 5, in control", Spc, 930.887012064, CusumRunLength.OneSided(0.5, 5, 0), 9);
        yield return new("CUSUM run length, one side", "k 0.5, h 4, shift 1", Spc, 8.38320212975, CusumRunLength.OneSided(0.5, 4, 1), 9);
        yield return new("CUSUM run length, one side", "k 0.5, h 5, shift 1", Spc, 10.3759753002, CusumRunLength.OneSided(0.5, 5, 1), 9);
        const string table = "NIST e-Handbook 6.3.2.3.1, table";
        yield return new("CUSUM run length, one side", "k 0.5, h 4, in control", table, 336, CusumRunLength.OneSided(0.5, 4, 0), 2.5);
        yield return new("CUSUM run length, one side", "k 0.5, h 5, in control", table, 930, CusumRunLength.OneSided(0.5, 5, 0), 2.9);
        foreach ((double shift, double four, double five) in TwoSided)
        {
            yield return new("CUSUM run length, both sides", $"k 0.5, h 4, shift {shift}", Spc, four, CusumRunLength.TwoSided(0.5, 4, shift), 9);
            yield return new("CUSUM run length, both sides", $"k 0.5, h 5, shift {shift}", Spc, five, CusumRunLength.TwoSided(0.5, 5, shift), 9);
        }
    }
}
