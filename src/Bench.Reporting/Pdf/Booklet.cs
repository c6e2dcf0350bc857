using System.Xml.Linq;
using Bench.Reporting.Html;
using Bench.Reporting.Plots;
using SkiaSharp;

namespace Bench.Reporting.Pdf;

/// <summary>What a page says, set on sheets of A4, with a line at the foot of each.</summary>
internal static class Booklet
{
    private const float Side = 14 * PdfFile.Millimetre;
    private const float Foot = 17 * PdfFile.Millimetre;

    /// <summary>Writes it as PDF.</summary>
    /// <param name="body">The page's body.</param>
    /// <param name="figures">The plots in it.</param>
    /// <param name="about">What the file says of itself.</param>
    /// <param name="foot">What stands at the foot of every page.</param>
    /// <param name="output">Where it goes; stays open.</param>
    public static void Write(SafeHtml body, IReadOnlyList<Figure> figures, About about, string foot, Stream output)
    {
        XElement content = XElement.Parse($"<div>{body.Text}</div>", LoadOptions.PreserveWhitespace);
        Pager pager = new(PdfFile.A4, new SKRect(Side, Side, Side, Foot));
        float width = PdfFile.A4.Width - (2 * Side);
        IReadOnlyList<SKPicture> pages = pager.Pages([.. new BlockReader(figures, pager.Room).Read(content, Side, width)]);
        PdfFile.Write(pages, PdfFile.A4, about, (canvas, page, count) => FootLine(canvas, foot, page, count), output);
    }

    private static void FootLine(SKCanvas canvas, string foot, int page, int count)
    {
        Look look = new(7, Ink.Quiet);
        float y = PdfFile.A4.Height - (9 * PdfFile.Millimetre);
        float right = PdfFile.A4.Width - Side;
        Ink.Line(canvas, Side, y - 10, right, y - 10, Ink.Rule, 0.5f);
        PdfFont.Draw(canvas, foot, Side, y, look);
        string number = FormattableString.Invariant($"page {page} of {count}");
        PdfFont.Draw(canvas, number, right - PdfFont.Width(number, look), y, look);
    }
}
