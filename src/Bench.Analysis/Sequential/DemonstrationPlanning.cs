using Bench.Model.Features;
using Bench.Model.Profiles;

namespace Bench.Analysis.Sequential;

/// <summary>Works out, before a run, what its sequential test promises (C11).</summary>
public static class DemonstrationPlanning
{
    /// <summary>Steps from p0 to p1, equal in the logarithm: the ends, the middle, and one on each side of it.</summary>
    private const int Steps = 4;

    /// <summary>The plan of a demonstration.</summary>
    /// <exception cref="ArgumentException">The demonstration is not a test.</exception>
    public static DemonstrationPlan Of(Demonstration demonstration)
    {
        ArgumentNullException.ThrowIfNull(demonstration);
        SequentialTest test = new(demonstration);
        DemonstrationResult untouched = test.Result();
        return new DemonstrationPlan
        {
            AcceptAt = untouched.AcceptAt,
            RejectAt = untouched.RejectAt,
            FewestToShow = test.MovesToGo,
            FewestToRefute = Math.Max(1, (int)Math.Ceiling(untouched.RejectAt / test.RatioOf(failed: 1, passed: 0))),
            MostMoves = demonstration.MostMoves,
            Points = [.. Enumerable.Range(0, Steps + 1).Select(i => At(demonstration, ShareAt(demonstration, i)))],
        };
    }

    private static double ShareAt(Demonstration demonstration, int step) => step switch
    {
        0 => demonstration.P0,
        Steps => demonstration.P1,
        _ => demonstration.P0 * Math.Pow(demonstration.P1 / demonstration.P0, (double)step / Steps),
    };

    private static PlanPoint At(Demonstration demonstration, double share)
    {
        OperatingCharacteristic c = OperatingCharacteristic.At(demonstration, share);
        return new PlanPoint(share, c.Shown, c.Refuted, c.Truncated, c.ExpectedMoves);
    }
}
