using Bench.Model.Instruments;
using Bench.Model.Runs;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>Exchanges with each device and how they went.</summary>
internal static class LinksSection
{
    public static SafeHtml Of(RunRecord record) =>
        record.Features is not { } features
            ? SafeHtml.None
            : Markup.Of(
                $"""
                <section aria-labelledby="links">
                <h2 id="links">Links and errors</h2>
                <div class="table"><table>
                <caption>Exchanges in this run; an attempt that was repeated counts again.</caption>
                <thead><tr><th scope="col">Device</th><th scope="col">Link</th><th scope="col">Part of</th><th scope="col" class="number">Exchanges</th><th scope="col" class="number">Silent</th><th scope="col" class="number">Damaged</th><th scope="col" class="number">Refused</th><th scope="col" class="number">Failed share</th></tr></thead>
                <tbody>
                {Markup.Join(features.Links.Select(Row))}</tbody>
                </table></div>
                </section>
                """);

    private static SafeHtml Row(LinkCounts counts)
    {
        string share = counts.Exchanges > 0
            ? Quantity.Percent((double)(counts.Silent + counts.Garbled + counts.Refused) / counts.Exchanges)
            : "–";
        return Markup.Of(
            $"<tr><th scope=\"row\">{counts.Device}</th><td>{counts.Link}</td><td>{(counts.IsFeedback ? "unit" : "bench")}</td><td class=\"number\">{counts.Exchanges}</td><td class=\"number\">{counts.Silent}</td><td class=\"number\">{counts.Garbled}</td><td class=\"number\">{counts.Refused}</td><td class=\"number\">{share}</td></tr>\n");
    }
}
