using Bench.Reporting.Html;
using Bench.Reporting.Plots;

namespace Bench.Reporting.Sections;

/// <summary>The plots, each with its numbers in words.</summary>
internal static class FiguresSection
{
    public static SafeHtml Of(IEnumerable<Figure> figures) => Markup.Of(
        $"""
        <section aria-labelledby="plots">
        <h2 id="plots">Plots</h2>
        <div class="figures">
        {Markup.Join(figures.Select(Of))}</div>
        </section>
        """);

    public static SafeHtml Of(Figure figure) =>
        figure.Svg is null
            ? Markup.Of(
                $"""
                <div class="omitted" id="plot-{figure.Id}"><h3>{figure.Title}</h3>
                <p class="quiet">No plot: {figure.OmittedBecause}.</p></div>

                """)
            : Markup.Of(
                $"""
                <figure id="plot-{figure.Id}" aria-labelledby="title-{figure.Id}">
                <h3 id="title-{figure.Id}">{figure.Title}</h3>
                {Image(figure)}
                <figcaption id="caption-{figure.Id}">{figure.Caption}</figcaption>
                </figure>

                """);

    // The plot is one image to a screen reader, and its caption is the description.
    private static SafeHtml Image(Figure figure)
    {
        const string open = "<svg ";
        SafeHtml labels = Markup.Of($"role=\"img\" aria-labelledby=\"title-{figure.Id}\" aria-describedby=\"caption-{figure.Id}\" ");
        return new SafeHtml(figure.Svg!.Insert(open.Length, labels.Text));
    }
}
