using Bench.Model.Safety;
using Bench.Reporting.Html;

namespace Bench.Reporting.Sections;

/// <summary>The cautions, for whoever takes the unit in hand next.</summary>
internal static class CautionsSection
{
    public static SafeHtml Of() => Markup.Of(
        $"""
        <section aria-labelledby="cautions">
        <h2 id="cautions">Cautions</h2>
        <ol class="cautions">
        {Markup.Join(Cautions.All.Select(c => Markup.Of($"<li>{c}</li>\n")))}</ol>
        </section>
        """);
}
