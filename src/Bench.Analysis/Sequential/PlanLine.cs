using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Serialization;

namespace Bench.Analysis.Sequential;

/// <summary>What a demonstration does to units of several shares of failing moves, in one line, told before the run.</summary>
public static class PlanLine
{
    /// <summary>The lines of a profile: its demonstration's, then those of stages that provoke.</summary>
    public static IEnumerable<string> AllOf(Profile profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        return profile.Routine.Where(s => s.Kind.Provokes()).Select(s => Of(s, profile.Demonstration)).Prepend(Of(profile.Demonstration));
    }

    /// <summary>The line: the units at p0, between, and at p1.</summary>
    /// <exception cref="ArgumentException">The plan is not a test.</exception>
    public static string Of(Demonstration plan) => $"plan: {Points(plan, "moves")}";

    /// <summary>The line of a stage that provokes, which is run only where it promises to tell something.</summary>
    /// <exception cref="InvalidOperationException">The stage does not provoke.</exception>
    public static string Of(Stage stage, Demonstration demonstration)
    {
        ArgumentNullException.ThrowIfNull(stage);
        return $"plan of stage {BenchJson.Word(stage.Kind)}, should it come to it: {Points(stage.Plan(demonstration), stage.Kind == StageKind.Connector ? "seconds" : "moves")}";
    }

    private static string Points(Demonstration plan, string trials) => string.Join("; ", TestPlan.Of(plan).Skip(1).Take(3).Select(p => Words(p, trials)));

    private static string Words(PlanPoint p, string trials) => FormattableString.Invariant(
        $"a unit failing {100 * p.FailingShare:0.##} % of {trials} passes with {100 * p.Shown:0.#} % after {p.ExpectedMoves:0} {trials} on average");
}
