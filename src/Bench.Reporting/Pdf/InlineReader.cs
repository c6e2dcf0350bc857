using System.Xml.Linq;

namespace Bench.Reporting.Pdf;

/// <summary>Reads running text from the packet's markup.</summary>
internal static class InlineReader
{
    /// <summary>The text of an element in its looks; what is meant for screens only is left out.</summary>
    public static List<Span> Of(XElement element, Look look)
    {
        List<Span> spans = [];
        Read(element, look, spans);
        return spans;
    }

    /// <summary>Whether an element has a class.</summary>
    public static bool Has(XElement element, string name) => Classes(element).Contains(name);

    /// <summary>An element's classes.</summary>
    public static string[] Classes(XElement element) => (element.Attribute("class")?.Value ?? string.Empty).Split(' ');

    private static void Read(XElement element, Look look, List<Span> spans)
    {
        foreach (XNode node in element.Nodes())
        {
            if (node is XText text)
            {
                // Line breaks of the source are spaces.
                spans.Add(new(text.Value.ReplaceLineEndings(" "), look));
            }
            else if (node is XElement inner && inner.Name.LocalName != "svg" && !Has(inner, "screen"))
            {
                Read(inner, look, spans, inner.Name.LocalName);
            }
        }
    }

    private static void Read(XElement inner, Look look, List<Span> spans, string name)
    {
        if (name == "br")
        {
            spans.Add(new("\n", look));
            return;
        }

        Look own = name switch
        {
            "strong" => look with { Bold = true },
            "code" => look with { Size = look.Size * 0.92f },
            "a" when inner.Attribute("href")?.Value is ['#', .. { } target] => look with { Target = target },
            _ => look,
        };
        Read(inner, Has(inner, "mark") ? own with { Bold = true } : own, spans);
    }
}
