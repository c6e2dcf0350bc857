using System.Text;
using Bench.Reporting.Plots;
using SkiaSharp;

namespace Bench.Reporting.Pdf;

/// <summary>
/// The packet's own font in a PDF, embedded. A character it lacks comes from the machine's fonts; where those lack it,
/// too, the replacement character stands for it.
/// </summary>
internal static class PdfFont
{
    private static readonly Lazy<SKTypeface> Regular = new(() => Load("BenchSans-Regular.ttf"));
    private static readonly Lazy<SKTypeface> Bold = new(() => Load("BenchSans-Bold.ttf"));

    /// <summary>The text in runs, each with a font that has its characters.</summary>
    public static IEnumerable<(SKFont Font, string Text)> Runs(string text, Look look)
    {
        SKTypeface own = look.Bold ? Bold.Value : Regular.Value;
        if (own.ContainsGlyphs(text))
        {
            yield return (Font(own, look.Size), text);
            yield break;
        }

        SKTypeface current = own;
        StringBuilder run = new();
        foreach (Rune rune in text.EnumerateRunes())
        {
            SKTypeface? has = own.ContainsGlyph(rune.Value) ? own : SKFontManager.Default.MatchCharacter(rune.Value);
            SKTypeface next = has ?? own;
            if (next.Handle != current.Handle && run.Length > 0)
            {
                yield return (Font(current, look.Size), run.ToString());
                run.Clear();
            }

            current = next;
            run.Append(has is null ? "?" : rune.ToString());
        }

        yield return (Font(current, look.Size), run.ToString());
    }

    /// <summary>Width of a text in points.</summary>
    public static float Width(string text, Look look)
    {
        float width = 0;
        foreach ((SKFont font, string run) in Runs(text, look))
        {
            using (font)
            {
                width += font.MeasureText(run);
            }
        }

        return width;
    }

    /// <summary>Draws a text from a point on its base line.</summary>
    public static void Draw(SKCanvas canvas, string text, float x, float y, Look look)
    {
        using SKPaint paint = new() { Color = look.Color, IsAntialias = true };
        foreach ((SKFont font, string run) in Runs(text, look))
        {
            using (font)
            {
                canvas.DrawText(run, x, y, SKTextAlign.Left, font, paint);
                x += font.MeasureText(run);
            }
        }
    }

    private static SKFont Font(SKTypeface typeface, float size) =>
        new(typeface, size) { Subpixel = true, LinearMetrics = true, Hinting = SKFontHinting.None };

    private static SKTypeface Load(string file)
    {
        using SKData data = SKData.CreateCopy(PlotFont.Bytes(file));
        return SKTypeface.FromData(data);
    }
}
