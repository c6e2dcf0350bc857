using Bench.Model.Features;
using Bench.Model.Profiles;

namespace Bench.Analysis.Sequential;

/// <summary>What a demonstration does to units of several shares of failing moves, in one line, told before the run.</summary>
public static class PlanLine
{
    /// <summary>The line: the units at p0, between, and at p1.</summary>
    /// <exception cref="ArgumentException">The plan is not a test.</exception>
    public static string Of(Demonstration plan) => $"plan: {string.Join("; ", TestPlan.Of(plan).Skip(1).Take(3).Select(Words))}";

    private static string Words(PlanPoint p) => FormattableString.Invariant(
        $"a unit failing {100 * p.FailingShare:0.##} % of moves passes with {100 * p.Shown:0.#} % after {p.ExpectedMoves:0} moves on average");
}
