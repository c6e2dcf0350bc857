using Bench.Model.Profiles;

namespace Bench.Analysis.Sequential;

/// <summary>What a demonstration does to units of several shares of failing moves, in one line, told before the run.</summary>
public static class PlanLine
{
    /// <summary>The line.</summary>
    /// <exception cref="ArgumentException">The plan is not a test.</exception>
    public static string Of(Demonstration plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return $"plan: {At(plan, plan.P0)}; {At(plan, Math.Sqrt(plan.P0 * plan.P1))}; {At(plan, plan.P1)}";
    }

    private static string At(Demonstration plan, double share)
    {
        OperatingCharacteristic c = OperatingCharacteristic.At(plan, share);
        return FormattableString.Invariant($"a unit failing {100 * share:0.##} % of moves passes with {100 * c.Shown:0.#} % after {c.ExpectedMoves:0} moves on average");
    }
}
