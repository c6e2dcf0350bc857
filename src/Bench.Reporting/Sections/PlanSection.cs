using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>What the sequential test promised before the first move. A run recorded without a plan has no such section.</summary>
internal static class PlanSection
{
    public static SafeHtml Of(RunRecord record) => record.Plan is not { } plan
        ? SafeHtml.None
        : Markup.Of(
            $"""
            <section aria-labelledby="plan">
            <h2 id="plan">Plan of the test</h2>
            <p>{Words(plan, record.Start.Profile.Demonstration)}</p>
            <div class="table"><table class="cards">
            <caption>What the test does to a unit, by the share of its moves that fail</caption>
            <thead><tr><th scope="col" class="number">Moves that fail</th><th scope="col" class="number">Shown</th><th scope="col" class="number">Refuted</th><th scope="col" class="number">No answer</th><th scope="col" class="number">Moves on average</th></tr></thead>
            <tbody>
            {Markup.Join(plan.Points.Select(Row))}</tbody>
            </table></div>
            </section>
            """);

    private static string Words(DemonstrationPlan plan, Demonstration asked) =>
        $"Fixed before the first move, for all counted moves of the run: {Quantity.Percent(asked.P0)} of moves failing is still good (p0), "
        + $"{Quantity.Percent(asked.P1)} must be found (p1), α {Quantity.Number(asked.Alpha)}, β {Quantity.Number(asked.Beta)}. "
        + $"Boundaries of the log likelihood ratio: {Quantity.Fixed(plan.AcceptAt, 2)} shows it, {Quantity.Fixed(plan.RejectAt, 2)} refutes it. "
        + Shortest(plan)
        + $" {Quantity.Count(plan.FewestToRefute, "failure", "failures")} in a row at the start refute it; "
        + $"after {Quantity.Count(plan.MostMoves, "move", "moves")} without a decision there is no answer. The chances hold for moves that fail independently of one another.";

    private static string Shortest(DemonstrationPlan plan) => plan.FewestToShow > plan.MostMoves
        ? $"It takes {Quantity.Count(plan.FewestToShow, "move", "moves")} without a failure to show it, more than the run may make: this test can't show a good unit."
        : $"{Quantity.Count(plan.FewestToShow, "move", "moves")} without a failure show it.";

    private static SafeHtml Row(PlanPoint point) => Markup.Of(
        $"<tr><th scope=\"row\" class=\"number\" data-name=\"Moves that fail\">{Quantity.Percent(point.Share)}</th><td class=\"number\" data-name=\"Shown\">{Quantity.Percent(point.Shown)}</td><td class=\"number\" data-name=\"Refuted\">{Quantity.Percent(point.Refuted)}</td><td class=\"number\" data-name=\"No answer\">{Quantity.Percent(point.Truncated)}</td><td class=\"number\" data-name=\"Moves on average\">{Quantity.Fixed(point.ExpectedMoves, 0)}</td></tr>\n");
}
