using Bench.Analysis.Statistics;
using MathNet.Numerics.Distributions;

namespace Bench.Campaigns.Checks;

/// <summary>Least squares against certified values.</summary>
internal static class RegressionChecks
{
    private const string Source = "NIST StRD, certified";

    // Digits asked of the 15 certified. Filip's regressors have a condition number of 1e10 even when scaled.
    private static readonly (string Name, double Digits)[] Sets =
    [
        ("Norris", 12), ("Pontius", 13), ("NoInt1", 14), ("NoInt2", 14), ("Filip", 7), ("Longley", 12),
        ("Wampler1", 13), ("Wampler2", 13), ("Wampler3", 13), ("Wampler4", 13), ("Wampler5", 13),
    ];

    /// <summary>The checks.</summary>
    public static IEnumerable<Check> All()
    {
        foreach ((string name, double digits) in Sets)
        {
            LinearSet set = LinearSet.Read(name);
            LinearFit? fit = LinearFit.Of(set.Regressors, set.Y);
            for (int j = 0; j < set.Coefficients.Length; j++)
            {
                yield return new($"coefficient B{j}", name, Source, set.Coefficients[j], fit?.Coefficients[j] ?? double.NaN, digits);
            }

            if (set.ResidualDeviation == 0)
            {
                continue;
            }

            for (int j = 0; j < set.Coefficients.Length; j++)
            {
                yield return new($"sd of B{j}", name, Source, set.StandardErrors[j], fit?.StandardErrors[j] ?? double.NaN, digits);
            }

            yield return new("residual deviation", name, Source, set.ResidualDeviation, fit?.ResidualDeviation ?? double.NaN, digits);
        }

        LinearSet norris = LinearSet.Read("Norris");
        StraightLine line = StraightLine.LeastSquares(norris.Regressors[1], norris.Y);
        yield return new("straight line, slope", "Norris", Source, norris.Coefficients[1], line.Slope, 12);
        yield return new("straight line, intercept", "Norris", Source, norris.Coefficients[0], line.At(0), 11);

        const string tables = "NIST e-Handbook 1.3.6.7.2, table of t";
        yield return new("Student's t", "97.5 %, 10", tables, 2.228, StudentT.InvCDF(0, 1, 10, 0.975), 3.5);
        yield return new("Student's t", "99.5 %, 34", "R 4.2.2 qt", 2.7283944, StudentT.InvCDF(0, 1, 34, 0.995), 7);
    }
}
