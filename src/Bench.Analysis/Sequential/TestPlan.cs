using Bench.Model.Features;
using Bench.Model.Profiles;

namespace Bench.Analysis.Sequential;

/// <summary>What a demonstration does to units of several shares of failing moves, computed before the run (C11).</summary>
public static class TestPlan
{
    /// <summary>At no failing move, p0, between p0 and p1 (their geometric mean, where the test is slowest), p1 and twice p1.</summary>
    /// <exception cref="ArgumentException">The plan is not a test.</exception>
    public static IReadOnlyList<PlanPoint> Of(Demonstration plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        double[] shares = [0, plan.P0, Math.Sqrt(plan.P0 * plan.P1), plan.P1, Math.Min(1, 2 * plan.P1)];
        return [.. shares.Select(share => At(plan, share))];
    }

    private static PlanPoint At(Demonstration plan, double share)
    {
        OperatingCharacteristic c = OperatingCharacteristic.At(plan, share);
        return new PlanPoint(share, c.Shown, c.Refuted, c.Truncated, c.ExpectedMoves);
    }
}
