using Bench.Analysis.Sequential;
using Bench.Model.Profiles;

namespace Bench.Campaigns.Checks;

/// <summary>Wald's sequential test: boundaries, expected moves, operating characteristic.</summary>
internal static class SequentialChecks
{
    private const string Source = "R 4.2.2 and scipy 1.10.1, from Wald 1947";

    /// <summary>The checks.</summary>
    public static IEnumerable<Check> All()
    {
        SequentialTest test = new(Plan(0.01, 0.10, 0.05, 0.10, 1000));
        yield return new("SPRT, upper boundary", "0.01/0.10", Source, 2.8903717579, test.Result().RejectAt, 10);
        yield return new("SPRT, lower boundary", "0.01/0.10", Source, -2.2512917986, test.Result().AcceptAt, 10);
        yield return new("SPRT, expected moves at p0", "0.01/0.10", Source, 27.9570211045, test.Result().ExpectedMovesAtP0, 11);
        yield return new("SPRT, expected moves at p1", "0.01/0.10", Source, 16.4466786691, test.ExpectedMovesAtP1, 11);
        yield return new("SPRT, moves to accept", "0.01/0.10", Source, 24, test.MovesToGo, 15);
        for (int i = 0; i < 23; i++)
        {
            test.Add(true);
        }

        yield return new("SPRT, log ratio after 23 passes", "0.01/0.10", Source, -2.1921341355, test.LogRatio, 10);
        SequentialTest other = new(Plan(0.05, 0.20, 0.05, 0.10, 1000));
        yield return new("SPRT, expected moves at p0", "0.05/0.20", Source, 21.2278516584, other.Result().ExpectedMovesAtP0, 11);
        yield return new("SPRT, expected moves at p1", "0.05/0.20", Source, 16.9997715577, other.ExpectedMovesAtP1, 11);
        yield return new("SPRT, moves to accept", "0.02/0.08", Source, 36, new SequentialTest(Plan(0.02, 0.08, 0.05, 0.10, 1000)).MovesToGo, 15);

        // A plan so short that only an unbroken row of passes can accept and one failure can't refute: closed forms.
        OperatingCharacteristic row = OperatingCharacteristic.At(Plan(0.005, 0.08, 0.05, 0.05, 38), 0.03);
        yield return new("operating characteristic, shown", "38 moves, share 0.03", "0.97^38", Math.Pow(0.97, 38), row.Shown, 12);
        yield return new("operating characteristic, total", "38 moves, share 0.03", "1", 1, row.Shown + row.Refuted + row.Truncated, 14);
    }

    /// <summary>A plan.</summary>
    public static Demonstration Plan(double p0, double p1, double alpha, double beta, int most) => new()
    {
        P0 = p0,
        P1 = p1,
        Alpha = alpha,
        Beta = beta,
        MostMoves = most,
        RingCoverage = 0.98,
        MissedSensorAlpha = 0.05,
    };
}
