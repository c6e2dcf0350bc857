using System.Xml.Linq;
using Bench.Model.Features;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Reporting.Pdf;
using Bench.Reporting.Plots;
using Bench.Reporting.Text;
using SkiaSharp;

namespace Bench.Reporting;

/// <summary>
/// The evidence packet as PDF, A4: the sections of <see cref="EvidencePacket"/>, set for paper. Plots are vectors, text
/// can be selected and searched, the font is embedded, and every page names its run (docs/evidence-packet.md).
/// </summary>
public static class EvidencePdf
{
    private const float Side = 14 * PdfFile.Millimetre;
    private const float Foot = 17 * PdfFile.Millimetre;

    /// <summary>Writes the PDF. The same run, trace and reference give the same bytes, unless a text asks for a font of the machine.</summary>
    /// <param name="run">The sealed run.</param>
    /// <param name="trace">Its trace; empty when the run has no samples.</param>
    /// <param name="output">Where it goes; stays open.</param>
    /// <param name="reference">What healthy units showed; null when nobody looked.</param>
    public static void Write(SealedRun run, Trace trace, Stream output, CurrentReference? reference = null)
    {
        IReadOnlyList<Figure> figures = AllPlots.Draw(run.Record, trace, reference);
        XElement body = XElement.Parse($"<div>{EvidencePacket.Body(run, figures).Text}</div>", LoadOptions.PreserveWhitespace);
        Pager pager = new(PdfFile.A4, new SKRect(Side, Side, Side, Foot));
        float width = PdfFile.A4.Width - (2 * Side);
        IReadOnlyList<SKPicture> pages = pager.Pages([.. new BlockReader(figures, pager.Room).Read(body, Side, width)]);
        RunStart start = run.Record.Start;
        About about = new(
            EvidencePacket.Title(run),
            $"{PrintableText.Of(start.Return.Serial)}, {PrintableText.Of(start.Profile.Title)}",
            $"run {start.Id:D}, SHA-256 {run.Hash}",
            start.Software,
            run.Record.EndedAt);
        PdfFile.Write(pages, PdfFile.A4, about, (canvas, page, count) => FootLine(canvas, run, page, count), output);
    }

    private static void FootLine(SKCanvas canvas, SealedRun run, int page, int count)
    {
        const int shown = 16;
        Look look = new(7, Ink.Quiet);
        float y = PdfFile.A4.Height - (9 * PdfFile.Millimetre);
        float right = PdfFile.A4.Width - Side;
        Ink.Line(canvas, Side, y - 10, right, y - 10, Ink.Rule, 0.5f);
        string simulated = run.Record.Start.Simulated ? "SIMULATED, " : string.Empty;
        PdfFont.Draw(canvas, $"{simulated}run {run.Record.Start.Id:D}, SHA-256 {run.Hash[..shown]}…", Side, y, look);
        string number = FormattableString.Invariant($"page {page} of {count}");
        PdfFont.Draw(canvas, number, right - PdfFont.Width(number, look), y, look);
    }
}
