using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Bench.Reporting.Plots;

/// <summary>Makes the plotting library's SVG fit for inlining in a page.</summary>
internal static partial class PlotSvg
{
    /// <summary>
    /// Ids become unique in the page, numbers are rounded to hundredths of a pixel (smaller, and the same on every
    /// machine), text names the page's font, and the size becomes a view box so that the page scales it.
    /// </summary>
    public static string Tidy(string svg, string id, int width, int height)
    {
        XElement root = XDocument.Parse(svg).Root ?? throw new InvalidOperationException("the plot has no SVG");
        foreach (XElement element in root.DescendantsAndSelf())
        {
            // Inline SVG in HTML needs no namespace; without it the elements are written bare.
            element.Name = element.Name.LocalName;
            foreach (XAttribute attribute in element.Attributes().ToList())
            {
                Tidy(attribute);
            }

            if (element.Name == "text")
            {
                Place(element);
            }
        }

        NumberClips(root, id);
        root.ReplaceAttributes(
            new XAttribute("viewBox", string.Create(CultureInfo.InvariantCulture, $"0 0 {width} {height}")),
            new XAttribute("font-family", PlotFont.Family));
        return root.ToString(SaveOptions.DisableFormatting);
    }

    // The library numbers its clip paths through the whole process, and writes the same rectangle again and again.
    private static void NumberClips(XElement root, string id)
    {
        Dictionary<string, string> byShape = [];
        Dictionary<string, string> renamed = [];
        foreach (XElement clip in root.Descendants("clipPath").ToList())
        {
            string shape = string.Concat(clip.Elements().Select(e => e.ToString(SaveOptions.DisableFormatting)));
            string old = clip.Attribute("id")!.Value;
            if (byShape.TryGetValue(shape, out string? known))
            {
                renamed[old] = known;
                clip.Remove();
                continue;
            }

            renamed[old] = byShape[shape] = string.Create(CultureInfo.InvariantCulture, $"{id}-{byShape.Count + 1}");
            clip.SetAttributeValue("id", renamed[old]);
        }

        foreach (XAttribute use in root.Descendants().Attributes("clip-path"))
        {
            use.Value = $"url(#{renamed[use.Value["url(#".Length..^1]]})";
        }
    }

    private static void Tidy(XAttribute attribute)
    {
        if (attribute.IsNamespaceDeclaration || attribute.Name.LocalName is "font-family" or "font-stretch" or "stroke-miterlimit")
        {
            attribute.Remove();
        }
        else if (attribute.Name.LocalName is not ("id" or "clip-path"))
        {
            attribute.Value = LongNumber().Replace(
                attribute.Value,
                number => double.Parse(number.ValueSpan, CultureInfo.InvariantCulture).ToString("0.##", CultureInfo.InvariantCulture));
        }
    }

    // The library places each letter; as the font travels with the page, the first place is enough and the text stays
    // one word for search and for screen readers.
    private static void Place(XElement text)
    {
        text.Value = text.Value.Trim();
        foreach (string axis in (string[])["x", "y"])
        {
            if (text.Attribute(axis) is { } place)
            {
                place.Value = place.Value.Split(',')[0];
            }
        }
    }

    [GeneratedRegex(@"-?\d+\.\d{3,}(?:e-?\d+)?", RegexOptions.CultureInvariant)]
    private static partial Regex LongNumber();
}
