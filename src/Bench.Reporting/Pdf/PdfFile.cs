using SkiaSharp;

namespace Bench.Reporting.Pdf;

/// <summary>Writes pages as a PDF file: vectors, selectable text, fonts embedded; the same pages give the same bytes.</summary>
internal static class PdfFile
{
    /// <summary>Points in a millimetre.</summary>
    public const float Millimetre = 72f / 25.4f;

    /// <summary>A4, ISO 216: 210 mm by 297 mm.</summary>
    public static SKSize A4 { get; } = new(210 * Millimetre, 297 * Millimetre);

    /// <summary>A6, ISO 216: 105 mm by 148 mm.</summary>
    public static SKSize A6 { get; } = new(105 * Millimetre, 148 * Millimetre);

    /// <summary>Writes the pages.</summary>
    /// <param name="pages">In order.</param>
    /// <param name="size">Of each, points.</param>
    /// <param name="about">What readers show of the file.</param>
    /// <param name="foot">Draws what stands on every page: given canvas, page from 1, number of pages.</param>
    /// <param name="output">Where it goes; stays open.</param>
    public static void Write(IReadOnlyList<SKPicture> pages, SKSize size, About about, Action<SKCanvas, int, int>? foot, Stream output)
    {
        SKDocumentPdfMetadata metadata = SKDocumentPdfMetadata.Default;
        metadata.Title = about.Title;
        metadata.Subject = about.Subject;
        metadata.Keywords = about.Keywords;
        metadata.Creator = about.Software;
        metadata.Creation = about.Time.UtcDateTime;
        metadata.Modified = about.Time.UtcDateTime;
        using SKManagedWStream stream = new(output);
        using SKDocument document = SKDocument.CreatePdf(stream, metadata);
        for (int i = 0; i < pages.Count; i++)
        {
            SKCanvas canvas = document.BeginPage(size.Width, size.Height);
            canvas.DrawPicture(pages[i]);
            foot?.Invoke(canvas, i + 1, pages.Count);
            document.EndPage();
        }

        document.Close();
    }
}

/// <summary>What readers show of a file.</summary>
internal sealed record About(string Title, string Subject, string Keywords, string Software, DateTimeOffset Time);
