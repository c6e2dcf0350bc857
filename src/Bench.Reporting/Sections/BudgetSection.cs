using Bench.Model.Features;
using Bench.Model.Runs;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>What each give or take is made of, for whoever doubts one; closed until asked for.</summary>
internal static class BudgetSection
{
    public static SafeHtml Of(RunRecord record)
    {
        Feature[] told = [.. (record.Judgement?.Findings ?? [])
            .Select(f => record.Features?.Features.FirstOrDefault(m => m.Name == f.Feature.Name && m.Subject == f.Feature.Subject))
            .OfType<Feature>().Where(f => f.Budget is { Count: > 0 })];
        return told.Length == 0 ? SafeHtml.None : Markup.Of(
            $"""
            <details class="budget">
            <summary>What each give or take is made of</summary>
            <div class="table">
            <table class="cards">
            <caption>Standard uncertainty u of each source and sensitivity c (change of the value per change of the source) give its part c u; the root of the sum of the parts' squares, times k, is U (JCGM 100:2008, 5.1.2 and G.4). Type A: from scatter in this run; B: from a certificate, a resolution, a tolerance or a study. Greatest part first.</caption>
            <thead><tr><th scope="col">Source</th><th scope="col">Type</th><th scope="col">Distribution</th><th scope="col" class="number">u</th><th scope="col" class="number">c</th><th scope="col" class="number">Part c u</th><th scope="col" class="number">Of U²</th></tr></thead>
            {Markup.Join(told.Select(Of))}</table>
            </div>
            </details>
            """);
    }

    private static SafeHtml Of(Feature feature)
    {
        string freedom = feature.DegreesOfFreedom is double v ? $", {Quantity.Fixed(v, 1)} degrees of freedom" : string.Empty;
        double k = feature.CoverageFactor ?? Feature.UsualCoverageFactor;
        return Markup.Of(
            $"""
            <tbody class="finding">
            <tr><th scope="rowgroup" colspan="7"><bdi>{Wording.Title(feature)}</bdi>: {Quantity.Of(feature)}, k = {Quantity.Fixed(k, 2)}{freedom}</th></tr>
            {Markup.Join(feature.Budget!.Select(c => Row(c, feature)))}</tbody>

            """);
    }

    private static SafeHtml Row(Contribution part, Feature feature)
    {
        double share = Math.Pow(part.InFeature / feature.StandardUncertainty!.Value, 2);
        return Markup.Of(
            $"<tr><th scope=\"row\">{part.Source}</th><td data-name=\"Type\">{part.Type.ToString()}</td><td data-name=\"Distribution\">{Wording.Of(part.Distribution)}</td><td class=\"number\" data-name=\"u\">{Quantity.Of(part.StandardUncertainty, part.Unit ?? feature.Unit)}</td><td class=\"number\" data-name=\"c\">{Quantity.Number(part.Sensitivity)}</td><td class=\"number\" data-name=\"Part\">{Quantity.Of(part.InFeature, feature.Unit)}</td><td class=\"number\" data-name=\"Of U²\">{Quantity.Percent(share)}</td></tr>\n");
    }
}
