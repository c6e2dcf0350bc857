using Bench.Model.Features;

namespace Bench.Analysis.Sequential;

/// <summary>What a demonstration does to units of several shares of failing moves, in one line, told before the run.</summary>
public static class PlanLine
{
    /// <summary>The line: the least share, the middle one, the greatest.</summary>
    public static string Of(DemonstrationPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        IReadOnlyList<PlanPoint> points = plan.Points;
        return $"plan: {At(points[0])}; {At(points[points.Count / 2])}; {At(points[^1])}";
    }

    private static string At(PlanPoint point) =>
        FormattableString.Invariant($"a unit failing {100 * point.Share:0.##} % of moves passes with {100 * point.Shown:0.#} % after {point.ExpectedMoves:0} moves on average");
}
