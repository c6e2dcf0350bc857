using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>What the run has demonstrated, in words, and the moves that failed.</summary>
internal static class DemonstrationSection
{
    private const int MostListed = 12;

    public static SafeHtml Of(RunRecord record)
    {
        if (record.Features is not { } features)
        {
            return SafeHtml.None;
        }

        MoveFeatures[] failed = [.. features.Moves.Where(m => m.Counts && !m.Passed)];
        return Markup.Of(
            $"""
            <section aria-labelledby="demonstration-words">
            <h2 id="demonstration-words">Demonstration</h2>
            <p>{Words(features, record.Start.Profile.Demonstration)}</p>
            {Plan(features.Demonstration.Plan)}
            {(failed.Length == 0 ? SafeHtml.None : Failed(failed))}
            </section>
            """);
    }

    private static string Words(RunFeatures features, Demonstration asked)
    {
        DemonstrationResult test = features.Demonstration;
        string limit = test.UpperLimit95 is { } upper
            ? $"With 95 % confidence at most {Quantity.Percent(upper)} of its moves fail. "
            : "With no move counted, nothing can be said of the share that fails. ";
        string toGo = features.Ring.RevolutionsToGo > 0
            ? $"; about {Quantity.Count(features.Ring.RevolutionsToGo, "more revolution", "more revolutions")} would reach it"
            : string.Empty;
        string rate = features.PositionRateHz is { } hertz
            ? $" Position was read {Quantity.Of(hertz, "times a second")} while the drive was on."
            : string.Empty;
        return $"{Quantity.Count(test.Moves, "move was", "moves were")} counted, {Quantity.Number(test.Failed)} failed. {limit}"
            + $"The test asks whether fewer than {Quantity.Percent(asked.P0)} of moves fail, or as many as {Quantity.Percent(asked.P1)}: "
            + $"{Wording.Of(test.State)} (at most {Quantity.Number(asked.MostMoves)} moves; a good unit needs about {Quantity.Fixed(test.ExpectedMovesAtP0, 0)}). "
            + $"{Quantity.Percent(features.Ring.Coverage)} of the ring was tested for missed sensors, {Quantity.Percent(asked.RingCoverage)} asked for{toGo}.{rate}";
    }

    private static SafeHtml Plan(IReadOnlyList<PlanPoint> plan) => plan.Count == 0 ? SafeHtml.None : Markup.Of(
        $"""
        <div class="table"><table class="cards">
        <caption>What this test does to units, computed before the run</caption>
        <thead><tr><th scope="col" class="number">True share of failing moves</th><th scope="col" class="number">Passes</th><th scope="col" class="number">Refuted</th><th scope="col" class="number">Undecided</th><th scope="col" class="number">Moves on average</th></tr></thead>
        <tbody>
        {Markup.Join(plan.Select(p => Markup.Of($"<tr><th scope=\"row\" class=\"number\" data-name=\"True share of failing moves\">{Quantity.Percent(p.FailingShare)}</th><td class=\"number\" data-name=\"Passes\">{Quantity.Percent(p.Shown)}</td><td class=\"number\" data-name=\"Refuted\">{Quantity.Percent(p.Refuted)}</td><td class=\"number\" data-name=\"Undecided\">{Quantity.Percent(p.Undecided)}</td><td class=\"number\" data-name=\"Moves on average\">{Quantity.Fixed(p.ExpectedMoves, 0)}</td></tr>\n")))}</tbody>
        </table></div>
        """);

    private static SafeHtml Failed(MoveFeatures[] failed) => Markup.Of(
        $"""
        <div class="table"><table class="cards">
        <caption>Failed moves{(failed.Length > MostListed ? $", the first {Quantity.Number(MostListed)} of {Quantity.Number(failed.Length)}" : string.Empty)}</caption>
        <thead><tr><th scope="col" class="number">Move</th><th scope="col">From</th><th scope="col">To</th><th scope="col">End</th><th scope="col">Why it failed</th></tr></thead>
        <tbody>
        {Markup.Join(failed.Take(MostListed).Select(m => Markup.Of($"<tr><th scope=\"row\" class=\"number\" data-name=\"Move\">{m.Number}</th><td data-name=\"From\">{m.FromPort ?? "–"}</td><td data-name=\"To\">{m.ToPort ?? "–"}</td><td data-name=\"End\">{Wording.Of(m.End)}</td><td data-name=\"Why\">{m.FailedBecause ?? "not stated"}</td></tr>\n")))}</tbody>
        </table></div>
        """);
}
