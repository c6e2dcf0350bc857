using System.Xml.Linq;
using Bench.Model.Runs;
using Bench.Reporting.Html;
using Bench.Reporting.Pdf;
using Bench.Reporting.Sections;
using Bench.Reporting.Text;
using SkiaSharp;

namespace Bench.Reporting;

/// <summary>
/// One page that goes with the unit through the workshop: verdict, cautions, what to do in order with room for a name,
/// and the code of the run. A4, or a short form on A6 to stick on a box.
/// </summary>
public static class Traveller
{
    private const float Gap = 8;

    /// <summary>Writes it on A4, as PDF.</summary>
    public static void Write(SealedRun run, Stream output) => Write(run, PdfFile.A4, Page(run), output);

    /// <summary>Writes the short form on A6, as PDF: without reasons, and with the first cautions only.</summary>
    public static void WriteShort(SealedRun run, Stream output) => Write(run, PdfFile.A6, ShortPage(run), output);

    /// <summary>The page of A4.</summary>
    internal static SKPicture Page(SealedRun run) => Page(run, PdfFile.A4, 14, TravellerSection.Of(run));

    /// <summary>The page of A6.</summary>
    internal static SKPicture ShortPage(SealedRun run) => Page(run, PdfFile.A6, 6, TravellerSection.ShortOf(run));

    private static SKPicture Page(SealedRun run, SKSize size, float marginMm, SafeHtml body) =>
        OnePage.Of(size, marginMm * PdfFile.Millimetre, width =>
        {
            BlockReader reader = new([], float.MaxValue);
            float module = RunCode.ModuleMm * PdfFile.Millimetre;
            float code = RunCode.Modules(run) * module;
            Strip square = new(code, (canvas, y) => RunCode.Draw(canvas, run, width - code, y, module));
            XElement head = XElement.Parse($"<div>{TravellerSection.Head(run).Text}</div>", LoadOptions.PreserveWhitespace);
            XElement rest = XElement.Parse($"<div>{body.Text}</div>", LoadOptions.PreserveWhitespace);
            return [.. Strip.Beside([.. reader.Read(head, 0, width - code - Gap)], [square], float.MaxValue), .. reader.Read(rest, 0, width)];
        });

    private static void Write(SealedRun run, SKSize size, SKPicture page, Stream output)
    {
        RunStart start = run.Record.Start;
        About about = new(
            $"{Mark.Of(run.Record).Word}: {PrintableText.Of(run.Return.Serial)} – traveller",
            PrintableText.Of(start.Profile.Title),
            RunCode.Text(run),
            start.Software,
            run.Record.EndedAt);
        PdfFile.Write([page], size, about, null, output);
    }
}
