using Bench.Reporting.Html;
using Bench.Reporting.Plots;

namespace Bench.Reporting.Sections;

/// <summary>The plots, each with its numbers in words.</summary>
internal static class FiguresSection
{
    public static SafeHtml Of(IReadOnlyList<Figure> figures) => Markup.Of(
        $"""
        <section aria-labelledby="plots">
        <h2 id="plots">Plots</h2>
        <div class="figures">
        {Markup.Join(figures.Where(f => f.IsDrawn).Select(Of))}</div>
        {Omitted([.. figures.Where(f => !f.IsDrawn)])}
        </section>
        """);

    public static SafeHtml Of(Figure figure) => Markup.Of(
        $"""
        <figure id="plot-{figure.Id}" aria-labelledby="title-{figure.Id}">
        <h3 id="title-{figure.Id}">{figure.Title}</h3>
        {Image(figure)}
        <figcaption id="caption-{figure.Id}">{figure.Caption}</figcaption>
        </figure>

        """);

    private static SafeHtml Omitted(IReadOnlyList<Figure> figures) =>
        figures.Count == 0
            ? SafeHtml.None
            : Markup.Of(
                $"""
                <ul class="omitted">
                {Markup.Join(figures.Select(f => Markup.Of($"<li id=\"plot-{f.Id}\">{f.Title}: no plot, because {f.OmittedBecause}.</li>\n")))}</ul>
                """);

    // The plot is one image to a screen reader, and its caption is the description.
    private static SafeHtml Image(Figure figure)
    {
        const string open = "<svg ";
        SafeHtml labels = Markup.Of($"role=\"img\" aria-labelledby=\"title-{figure.Id}\" aria-describedby=\"caption-{figure.Id}\" ");
        return new SafeHtml(figure.Svg!.Insert(open.Length, labels.Text));
    }
}
