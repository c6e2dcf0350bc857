using Bench.Analysis.Statistics;

namespace Bench.Campaigns.Checks;

/// <summary>Mean, standard deviation and autocorrelation against certified values.</summary>
internal static class UnivariateChecks
{
    private const string Source = "NIST StRD, certified";

    // Digits asked of deviation and autocorrelation. NumAcc3 and NumAcc4 hold decimals that binary numbers can't, about a
    // mean a million and a hundred million times their spread: the data as stored agree with the certified to 9.5 and 8.3.
    private static readonly (string Name, double Digits)[] Sets =
    [
        ("Lew", 14), ("Lottery", 14), ("Mavro", 12), ("Michelso", 13), ("NumAcc1", 15), ("NumAcc2", 14), ("NumAcc3", 9), ("NumAcc4", 8),
    ];

    /// <summary>The checks.</summary>
    public static IEnumerable<Check> All()
    {
        foreach ((string name, double digits) in Sets)
        {
            UnivariateSet set = UnivariateSet.Read(name);
            yield return new("mean", name, Source, set.Mean, Describe.Mean(set.Values), 14);
            yield return new("standard deviation", name, Source, set.Deviation, Describe.StandardDeviation(set.Values), digits);
            yield return new("autocorrelation lag 1", name, Source, set.Autocorrelation, Describe.Autocorrelation(set.Values)!.Value, digits);
        }

        const string r = "R 4.2.2 median, mad";
        yield return new("median", "Lew", r, -162, Robust.Median(UnivariateSet.Read("Lew").Values), 15);
        yield return new("MAD x 1.4826", "Lew", r, 401.0433, Robust.Deviation(UnivariateSet.Read("Lew").Values), 5);
        yield return new("MAD x 1.4826", "Michelso", r, 0.066717, Robust.Deviation(UnivariateSet.Read("Michelso").Values), 5);
    }
}
