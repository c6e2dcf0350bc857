using System.Globalization;
using System.Xml.Linq;
using Bench.Reporting.Plots;
using SkiaSharp;

namespace Bench.Reporting.Pdf;

/// <summary>
/// Lays out the packet's markup. Page and PDF say the same because they are made of the same sections: this reads the
/// few elements those are written in, and refuses any other.
/// </summary>
/// <param name="figures">The plots that the markup's figures stand for.</param>
/// <param name="highest">Height above which columns stand below each other.</param>
internal sealed class BlockReader(IReadOnlyList<Figure> figures, float highest)
{
    private const float Gutter = 14;

    /// <summary>Points of a CSS pixel.</summary>
    private const float PixelPoints = 0.75f;

    private static readonly Look Body = new(9, Ink.Text);
    private static readonly Look Small = new(7.6f, Ink.Text);

    /// <summary>The strips of an element and all it holds.</summary>
    /// <exception cref="InvalidOperationException">The markup holds an element that no layout is written for.</exception>
    public IEnumerable<Strip> Read(XElement element, float x, float width) => element.Name.LocalName switch
    {
        _ when InlineReader.Has(element, "screen") => [],
        "nav" or "svg" => [],
        "section" when InlineReader.Has(element, "verdict") => Verdict(element, x, width),
        "div" when InlineReader.Has(element, "facts") || InlineReader.Has(element, "figures") => Pairs(element, x, width),
        "div" when InlineReader.Has(element, "next") => Barred(element, x, width),
        "main" or "section" or "div" or "header" or "details" => Children(element, x, width),
        "h1" => Heading(element, x, width, Body with { Size = 13, Bold = true }, 0),
        "h2" when InlineReader.Has(element, "unseen") => [],
        "h2" => Ruled(Heading(element, x, width, Body with { Size = 13, Bold = true }, 12), x, width),
        "h3" or "summary" => Heading(element, x, width, Body with { Bold = true }, 4),
        "p" when InlineReader.Has(element, "word") => Word(element, x, width),
        "p" or "aside" => Paragraph(element, x, width),
        "ol" or "ul" => Items(element, x, width),
        "dl" => Facts(element, x, width),
        "table" => [.. Caption(element, x, width), .. TableLayout.Of(element, x, width, Small), Strip.Space(6)],
        "figure" when InlineReader.Has(element, "photo") => Photo(element, x, width),
        "figure" => Picture(element, x, width),
        string name => throw new InvalidOperationException($"no layout for <{name}>; write one, or use an element that has one"),
    };

    private IEnumerable<Strip> Children(XElement element, float x, float width) =>
        element.Elements().SelectMany(e => Read(e, x, width));

    private IEnumerable<Strip> Verdict(XElement section, float x, float width)
    {
        XElement[] parts = [.. section.Elements()];
        SKColor tone = Tone(section) ?? Ink.Text;
        Strip rule = new(8, (canvas, y) => Ink.Fill(canvas, SKRect.Create(x, y, width, 3.5f), tone));
        if (parts.Length < 2)
        {
            return [rule, .. Read(parts[0], x, width)];
        }

        float half = (width - Gutter) / 2;
        return [rule, .. Strip.Beside([.. Read(parts[0], x, half)], [.. Read(parts[1], x + half + Gutter, half)], highest)];
    }

    private IEnumerable<Strip> Pairs(XElement element, float x, float width)
    {
        float half = (width - Gutter) / 2;
        foreach (XElement[] pair in element.Elements().Chunk(2))
        {
            Strip[] left = [.. Read(pair[0], x, half)];
            Strip[] right = pair.Length < 2 ? [] : [.. Read(pair[1], x + half + Gutter, half)];
            foreach (Strip strip in Strip.Beside(left, right, highest))
            {
                yield return strip;
            }
        }
    }

    private IEnumerable<Strip> Barred(XElement element, float x, float width)
    {
        SKColor tone = Tone(element) ?? Ink.Text;
        Strip[] inner = [Strip.Space(3), .. Children(element, x + 12, width - 18), Strip.Space(1)];
        return
        [
            Strip.Space(5, keepNext: true),
            .. Strip.Together([.. Strip.On(inner, (canvas, y, height, _, _) =>
            {
                Ink.Fill(canvas, SKRect.Create(x, y, width, height + 0.5f), Ink.Sheet);
                Ink.Fill(canvas, SKRect.Create(x, y, 4, height + 0.5f), tone);
            })]),
            Strip.Space(5),
        ];
    }

    private static IEnumerable<Strip> Heading(XElement element, float x, float width, Look look, float above)
    {
        string? id = element.Attribute("id")?.Value;
        Strip place = new(above, (canvas, y) => Mark(canvas, id, x, y), KeepNext: true);
        return [place, .. Set(InlineReader.Of(element, look), x, width).Select(s => s with { KeepNext = true }), Strip.Space(2, keepNext: true)];
    }

    private static IEnumerable<Strip> Ruled(IEnumerable<Strip> heading, float x, float width) =>
        [.. heading, new Strip(5, (canvas, y) => Ink.Line(canvas, x, y, x + width, y, Ink.Text, 1.2f), KeepNext: true)];

    // The verdict's word, with its shape before it.
    private static IEnumerable<Strip> Word(XElement element, float x, float width)
    {
        const float shape = 24;
        Look look = Body with { Size = 24, Bold = true, Color = Tone(element) ?? Ink.Text };
        Strip[] lines = [.. Set(InlineReader.Of(element, look), x + shape + 8, width - shape - 8)];
        return [.. Strip.Together([.. Strip.On(lines, (canvas, y, height, first, _) =>
        {
            if (first)
            {
                VerdictShape.Draw(canvas, element.Element("svg")!, SKRect.Create(x, y + ((height - shape) / 2), shape, shape), look.Color);
            }
        })]), Strip.Space(4)];
    }

    private static IEnumerable<Strip> Paragraph(XElement element, float x, float width)
    {
        Look look = InlineReader.Has(element, "quiet") ? Small with { Color = Ink.Quiet }
            : InlineReader.Has(element, "warning") ? Body with { Bold = true, Color = Tone(element) ?? Ink.Text }
            : Body;
        bool boxed = InlineReader.Has(element, "warning") || InlineReader.Has(element, "simulated");
        if (!boxed)
        {
            return [.. Set(InlineReader.Of(element, look), x, width), Strip.Space(4)];
        }

        Strip[] inner = [Strip.Space(3), .. Set(InlineReader.Of(element, look), x + 8, width - 16), Strip.Space(4)];
        return
        [
            Strip.Space(3, keepNext: true),
            .. Strip.Together([.. Strip.On(inner, (canvas, y, height, first, last) => Frame(canvas, SKRect.Create(x, y, width, height), first, last, look.Color))]),
            Strip.Space(7),
        ];
    }

    private static void Frame(SKCanvas canvas, SKRect area, bool first, bool last, SKColor color)
    {
        Ink.Line(canvas, area.Left, area.Top, area.Left, area.Bottom, color, 1.2f);
        Ink.Line(canvas, area.Right, area.Top, area.Right, area.Bottom, color, 1.2f);
        if (first)
        {
            Ink.Line(canvas, area.Left, area.Top, area.Right, area.Top, color, 1.2f);
        }

        if (last)
        {
            Ink.Line(canvas, area.Left, area.Bottom, area.Right, area.Bottom, color, 1.2f);
        }
    }

    private static IEnumerable<Strip> Items(XElement list, float x, float width)
    {
        const float indent = 13;
        bool numbered = list.Name == "ol";
        int number = 0;
        foreach (XElement item in list.Elements("li"))
        {
            number++;
            string sign = numbered ? number.ToString(CultureInfo.InvariantCulture) + "." : "•";
            Strip[] lines = [.. Set(InlineReader.Of(item, Body), x + indent, width - indent)];
            string? id = item.Attribute("id")?.Value;
            foreach (Strip strip in Strip.Together([.. Strip.On(lines, (canvas, y, _, first, _) =>
            {
                if (first)
                {
                    Mark(canvas, id, x, y);
                    PdfFont.Draw(canvas, sign, x + 1, y + (Body.Size * TextLine.Leading * 0.76f), Body);
                }
            })]))
            {
                yield return strip;
            }

            yield return Strip.Space(2);
        }

        yield return Strip.Space(3);
    }

    private static IEnumerable<Strip> Facts(XElement list, float x, float width)
    {
        const float nameShare = 0.27f;
        float name = Math.Min(110, nameShare * width);
        foreach (XElement term in list.Elements("dt"))
        {
            XElement value = term.ElementsAfterSelf("dd").First();
            Strip[] left = [.. Set(InlineReader.Of(term, Small with { Color = Ink.Quiet }), x, name - 6)];
            Strip[] right = [.. Set(InlineReader.Of(value, Small), x + name, width - name)];
            foreach (Strip strip in Strip.Beside(left, right, 300))
            {
                yield return strip;
            }

            yield return Strip.Space(1.2f);
        }

        yield return Strip.Space(3);
    }

    private static IEnumerable<Strip> Caption(XElement table, float x, float width) =>
        table.Element("caption") is not { } caption
            ? []
            : [.. Set(InlineReader.Of(caption, Small with { Color = Ink.Quiet }), x, width).Select(s => s with { KeepNext = true }), Strip.Space(3, keepNext: true)];

    private IEnumerable<Strip> Picture(XElement element, float x, float width)
    {
        string id = element.Attribute("id")!.Value;
        Figure figure = figures.Single(f => id == "plot-" + f.Id);
        float scale = width / Figure.Width;
        Strip drawing = new(
            (scale * figure.Height) + 3,
            (canvas, y) =>
            {
                Mark(canvas, id, x, y);
                SKMatrix place = SKMatrix.CreateScaleTranslation(scale, scale, x, y);
                canvas.DrawPicture(figure.Picture!, in place);
            },
            KeepNext: true);
        return
        [
            .. element.Elements("h3").SelectMany(h => Read(h, x, width)),
            drawing,
            .. Strip.Together([.. Set(InlineReader.Of(element.Element("figcaption")!, Small with { Color = Ink.Quiet }), x, width)]),
            Strip.Space(8),
        ];
    }

    // Never wider than the pixels stand at screen size, never higher than half a page.
    private static IEnumerable<Strip> Photo(XElement element, float x, float width)
    {
        const float mostHeight = 300;
        string source = element.Element("img")!.Attribute("src")!.Value;
        SKImage image = SKImage.FromEncodedData(Convert.FromBase64String(source[(source.IndexOf(',', StringComparison.Ordinal) + 1)..]));
        float scale = Math.Min(Math.Min(width / image.Width, mostHeight / image.Height), PixelPoints);
        Strip drawing = new(
            (scale * image.Height) + 3,
            (canvas, y) => canvas.DrawImage(image, SKRect.Create(x, y, scale * image.Width, scale * image.Height), new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear)),
            KeepNext: true);
        return [Strip.Space(4), drawing, .. Strip.Together([.. Set(InlineReader.Of(element.Element("figcaption")!, Small with { Color = Ink.Quiet }), x, width)]), Strip.Space(8)];
    }

    private static IEnumerable<Strip> Set(IEnumerable<Span> text, float x, float width) =>
        Wrapping.Lines(text, width).Select(line => new Strip(line.Height, (canvas, y) => line.Draw(canvas, x, y)));

    private static void Mark(SKCanvas canvas, string? id, float x, float y)
    {
        if (id is not null)
        {
            using SKData name = SKData.CreateCopy(System.Text.Encoding.ASCII.GetBytes(id + '\0'));
            canvas.DrawNamedDestinationAnnotation(new SKPoint(x, y), name);
        }
    }

    // The nearest tone around an element.
    private static SKColor? Tone(XElement element) =>
        element.AncestorsAndSelf().SelectMany(InlineReader.Classes).Select(Ink.Tone).FirstOrDefault(c => c is not null);
}
