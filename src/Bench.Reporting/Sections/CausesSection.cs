using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>Ranked causes, what speaks for and against each, and the checks by hand that would tell them apart.</summary>
internal static class CausesSection
{
    // Below this a cause is only noise in a table; the plot sums them up.
    private const double LeastProbability = 0.005;

    public static SafeHtml Of(RunRecord record)
    {
        if (record.Judgement is not { Causes.Count: > 0 } judgement)
        {
            return SafeHtml.None;
        }

        Cause[] shown = [.. judgement.Causes.Where((c, i) => i == 0 || c.Probability >= LeastProbability)];
        int left = judgement.Causes.Count - shown.Length;
        return Markup.Of(
            $"""
            <section aria-labelledby="causes">
            <h2 id="causes">Causes</h2>
            <div class="table"><table class="cards">
            <caption>Likeliest first, given the findings and how common each cause is among returns{(left > 0 ? $"; {Quantity.Count(left, "cause", "causes")} below {Quantity.Percent(LeastProbability)} not shown" : string.Empty)}.</caption>
            <thead><tr><th scope="col">Cause</th><th scope="col" class="number">Probability</th><th scope="col">Speaks for it</th><th scope="col">Speaks against it</th></tr></thead>
            <tbody>
            {Markup.Join(shown.Select(c => Row(c)))}</tbody>
            </table></div>
            <p class="quiet">For and against: how many times likelier a finding is under this cause than under the others. Findings are taken as independent given the cause; where one effect shows in several of them, probabilities near 0 and 100 % may be too sure, while their order holds.</p>
            {Checks(judgement)}
            </section>
            """);
    }

    private static SafeHtml Row(Cause cause) => Markup.Of(
        $"<tr><th scope=\"row\"><bdi>{cause.Name}</bdi></th><td class=\"number\" data-name=\"Probability\">{Quantity.Percent(cause.Probability)}</td><td data-name=\"Speaks for it\">{Words(cause.Evidence.Where(e => e.Factor > 1))}</td><td data-name=\"Speaks against it\">{Words(cause.Evidence.Where(e => e.Factor < 1))}</td></tr>\n");

    private static string Words(IEnumerable<CauseEvidence> evidence)
    {
        string words = string.Join(", ", evidence.Select(e => $"{Wording.Title(e.Feature)} ({Times(e.Factor)})"));
        return words.Length == 0 ? "–" : words;
    }

    // Beyond a hundred the number is the profile author's guess, no measurement.
    private static string Times(double factor) => (factor > 1 ? factor : 1 / factor) switch
    {
        > 100 => "over 100 to 1",
        var odds => $"{Quantity.Fixed(odds, odds < 10 ? 1 : 0)} to 1",
    };

    private static SafeHtml Checks(Judgement judgement) => judgement.Checks.Count == 0 ? SafeHtml.None : Markup.Of(
        $"""
        <div class="table"><table class="cards">
        <caption>Checks by hand, the one that promises most information a minute first</caption>
        <thead><tr><th scope="col">Check</th><th scope="col">Shows</th><th scope="col">Tells</th><th scope="col" class="number">Promises</th><th scope="col" class="number">Takes</th></tr></thead>
        <tbody>
        {Markup.Join(judgement.Checks.Select(c => Markup.Of($"<tr><th scope=\"row\">{c.Check}</th><td data-name=\"Shows\">{c.Expect ?? "–"}</td><td data-name=\"Tells\">{c.Tells}</td><td class=\"number\" data-name=\"Promises\">{Quantity.Of(Math.Round(c.Bits, 2), "bit")}</td><td class=\"number\" data-name=\"Takes\">{(c.Minutes is { } minutes ? Quantity.Of(minutes, "min") : "not stated")}</td></tr>\n")))}</tbody>
        </table></div>
        """);
}
