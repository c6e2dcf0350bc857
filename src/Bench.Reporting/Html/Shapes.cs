using Bench.Reporting.Text;

namespace Bench.Reporting.Html;

/// <summary>The verdict's shapes, drawn: large enough to be told apart across a bench.</summary>
internal static class Shapes
{
    /// <summary>The drawing of a mark's shape, in the colour of the text around it.</summary>
    public static SafeHtml Of(Mark mark) => mark.Word switch
    {
        "reusable" => Markup.Of($"""<svg viewBox="0 0 40 40" aria-hidden="true"><circle cx="20" cy="20" r="18" fill="currentColor"/></svg>"""),
        "repairable" => Markup.Of($"""<svg viewBox="0 0 40 40" aria-hidden="true"><path fill="currentColor" d="M20 1L39 20L20 39L1 20Z"/></svg>"""),
        "scrap" => Markup.Of($"""<svg viewBox="0 0 40 40" aria-hidden="true"><path fill="currentColor" d="M3 3H37V37H3Z"/></svg>"""),
        "aborted" => Markup.Of($"""<svg viewBox="0 0 40 40" aria-hidden="true"><path fill="currentColor" d="M20 3L39 37H1Z"/></svg>"""),
        _ => Markup.Of($"""<svg viewBox="0 0 40 40" aria-hidden="true"><circle cx="20" cy="20" r="15.5" fill="none" stroke="currentColor" stroke-width="5"/></svg>"""),
    };
}
