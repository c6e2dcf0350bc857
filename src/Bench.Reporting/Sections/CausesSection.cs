using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>Ranked causes, each with the check by hand that would tell.</summary>
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
            <thead><tr><th scope="col">Cause</th><th scope="col" class="number">Probability</th><th scope="col">Next check by hand</th><th scope="col">Shows, if this is the cause</th></tr></thead>
            <tbody>
            {Markup.Join(shown.Select(c => Row(c, record.Start.Profile)))}</tbody>
            </table></div>
            </section>
            """);
    }

    private static SafeHtml Row(Cause cause, Profile profile)
    {
        FaultMode? mode = profile.FaultModes.FirstOrDefault(m => m.Id == cause.Id);
        return Markup.Of(
            $"<tr><th scope=\"row\"><bdi>{cause.Name}</bdi></th><td class=\"number\" data-name=\"Probability\">{Quantity.Percent(cause.Probability)}</td><td data-name=\"Next check\">{mode?.NextCheck ?? "–"}</td><td data-name=\"Shows\">{mode?.Expect ?? "–"}</td></tr>\n");
    }
}
