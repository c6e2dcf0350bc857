using Bench.Model.Comparisons;
using Bench.Model.Judging;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Comparison;

/// <summary>Every feature that both runs have, worst first; then those that can't be compared, and why.</summary>
internal static class DifferencesSection
{
    public static SafeHtml Of(RunComparison comparison)
    {
        FeatureDifference[] compared = [.. comparison.Features.Where(f => f.Value is not null)];
        return compared.Length == 0 ? SafeHtml.None : Markup.Of(
            $"""
            <section aria-labelledby="differences">
            <h2 id="differences">Feature by feature</h2>
            <div class="table">
            <table class="cards">
            <caption>{Quantity.Count(compared.Length, "feature", "features")}, worst first; B − A with its expanded uncertainty, about 95 %. E_n is the difference over that: beyond 1 either way it is more than its own uncertainty. p (Holm) allows for all {comparison.Tested} tested: differs at 0.046 or less. Shares and rates of counted events are tested exactly, without E_n; not-tested is an exact count or answer, or what befell in neither run.</caption>
            <thead><tr><th scope="col">Feature</th><th scope="col">Difference is</th><th scope="col" class="number">A ± U</th><th scope="col" class="number">B ± U</th><th scope="col" class="number">B − A ± U</th><th scope="col" class="number">E_n</th><th scope="col" class="number">p (Holm)</th></tr></thead>
            {Markup.Join(compared.Select(f => Row(comparison, f)))}
            </table>
            </div>
            </section>
            """);
    }

    public static SafeHtml NotCompared(RunComparison comparison)
    {
        FeatureDifference[] missing = [.. comparison.Features.Where(f => f.Value is null)];
        return missing.Length == 0 ? SafeHtml.None : Markup.Of(
            $"""
            <section aria-labelledby="missing">
            <h2 id="missing">Not compared</h2>
            <ul class="omitted">
            {Markup.Join(missing.Select(f => Markup.Of($"<li><bdi>{Wording.Title((f.B ?? f.A)!)}</bdi>: {f.Because}.</li>\n")))}</ul>
            </section>
            """);
    }

    private static SafeHtml Row(RunComparison comparison, FeatureDifference f)
    {
        Mark mark = Mark.Of(f.Outcome);
        return Markup.Of(
            $"""
            <tbody class="finding">
            <tr><th scope="row"><bdi>{Wording.Title((f.B ?? f.A)!)}</bdi></th><td class="{mark.Tone}"><span class="mark">{mark.Shape} {mark.Word}</span></td><td class="number" data-name="A">{DifferenceText.Value(f.A, comparison.A.Return)}</td><td class="number" data-name="B">{DifferenceText.Value(f.B, comparison.B.Return)}</td><td class="number" data-name="B − A">{DifferenceText.Of(f)}</td><td class="number" data-name="E_n">{DifferenceText.En(f)}</td><td class="number" data-name="p (Holm)">{DifferenceText.P(f.AdjustedP)}</td></tr>
            {(f.Limit is null ? SafeHtml.None : Markup.Of($"<tr class=\"statement\"><td colspan=\"7\">{DifferenceText.Limit(f, comparison.B.Record.Start.Profile)}: {Decisions(f)}</td></tr>"))}
            </tbody>

            """);
    }

    private static string Decisions(FeatureDifference f) => f.DecisionA == f.DecisionB
        ? $"{Decision(f.DecisionA)} in both"
        : $"{Decision(f.DecisionA)} in A, {Decision(f.DecisionB)} in B";

    private static string Decision(FindingDecision? decision) => decision is { } d ? $"{Mark.Of(d).Shape} {Mark.Of(d).Word}" : "no decision";
}
