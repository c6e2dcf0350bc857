using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>The order of work of a repairable unit, with what it costs against a replacement.</summary>
internal static class WorkSection
{
    public static SafeHtml Of(RunRecord record)
    {
        if (record.Judgement is not { Work.Count: > 0 } judgement)
        {
            return SafeHtml.None;
        }

        Economics costs = record.Start.Profile.Economics;
        return Markup.Of(
            $"""
            <section aria-labelledby="work">
            <h2 id="work">Order of work</h2>
            <div class="table"><table class="cards">
            <caption>A replacement costs {Quantity.Money(costs.ReplacementCost, costs.Currency)}; repair is worth at most {Quantity.Percent(costs.GreatestRepairFraction)} of it, {Quantity.Money(costs.ReplacementCost * costs.GreatestRepairFraction, costs.Currency)}. Labour at {Quantity.Money(costs.LabourPerHour, costs.Currency)} an hour.</caption>
            <thead><tr><th scope="col" class="number">Step</th><th scope="col">Work</th><th scope="col" class="number">Parts</th><th scope="col" class="number">Minutes</th><th scope="col" class="number">Cost</th></tr></thead>
            <tbody>
            {Markup.Join(judgement.Work.Select((item, i) => Row(i + 1, item)))}</tbody>
            <tfoot><tr><th scope="row" colspan="3">Together</th><td class="number" data-name="Minutes">{Quantity.Fixed(judgement.Work.Sum(w => w.Minutes), 0)}</td><td class="number" data-name="Cost">{Quantity.Money(judgement.WorkCost, costs.Currency)}</td></tr></tfoot>
            </table></div>
            </section>
            """);
    }

    private static SafeHtml Row(int step, WorkItem item) => Markup.Of(
        $"<tr><th scope=\"row\" class=\"number\" data-name=\"Step\">{step}</th><td>{item.Work}</td><td class=\"number\" data-name=\"Parts\">{Quantity.Fixed(item.PartsCost, 2)}</td><td class=\"number\" data-name=\"Minutes\">{Quantity.Fixed(item.Minutes, 0)}</td><td class=\"number\" data-name=\"Cost\">{Quantity.Fixed(item.Cost, 2)}</td></tr>\n");
}
