using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Reporting.Pdf;
using Bench.Reporting.Sections;
using Bench.Reporting.Text;
using SkiaSharp;

namespace Bench.Reporting;

/// <summary>A label for the unit, 62 mm wide: code, verdict with its shape, serial number, claim, day, run. Black only, for thermal printers.</summary>
public static class UnitLabel
{
    private const float Edge = 2 * PdfFile.Millimetre;
    private const float LeastSize = 5;

    /// <summary>62 mm by 29 mm.</summary>
    internal static SKSize Size { get; } = new(62 * PdfFile.Millimetre, 29 * PdfFile.Millimetre);

    /// <summary>Writes it, as PDF.</summary>
    public static void Write(SealedRun run, Stream output)
    {
        RunStart start = run.Record.Start;
        About about = new(
            $"{Mark.Of(run.Record).Word}: {PrintableText.Of(run.Return.Serial)} – label",
            PrintableText.Of(start.Profile.Title),
            RunCode.Text(run),
            start.Software,
            run.Record.EndedAt);
        PdfFile.Write([Page(run)], Size, about, null, output);
    }

    /// <summary>The label.</summary>
    internal static SKPicture Page(SealedRun run)
    {
        using SKPictureRecorder recorder = new();
        SKCanvas canvas = recorder.BeginRecording(SKRect.Create(Size));
        float module = RunCode.ModuleMm * PdfFile.Millimetre;
        float code = RunCode.Modules(run) * module;
        RunCode.Draw(canvas, run, 0, (Size.Height - code) / 2, module);
        float y = Edge;
        foreach ((string text, float size, bool bold) in Lines(run))
        {
            Look look = Fitting(text, new Look(size, SKColors.Black, bold), Size.Width - code - Edge);
            y += look.Size * 1.2f;
            PdfFont.Draw(canvas, Fitted(text, look, Size.Width - code - Edge), code, y, look);
        }

        return recorder.EndRecording();
    }

    private static IEnumerable<(string Text, float Size, bool Bold)> Lines(SealedRun run)
    {
        RunRecord record = run.Record;
        RunStart start = record.Start;
        Mark mark = Mark.Of(record);
        yield return ($"{mark.Shape} {mark.Word.ToUpperInvariant()}", 15, true);
        yield return (PrintableText.Of(run.Return.Serial), 11, true);
        if (run.Return.Serial != start.Return.Serial)
        {
            yield return ($"sealed as {PrintableText.Of(start.Return.Serial)}", 6, false);
        }

        yield return (record.Judgement is { } judgement ? $"claim {BenchJson.Word(judgement.Claim)}" : "no verdict on the unit", 8, false);
        yield return ($"tested {Moment.Of(DateOnly.FromDateTime(start.StartedAt.DateTime))}", 8, false);
        yield return ($"run …{start.Id.ToString("N")[^12..]}", 8, false);
        if (!record.OutputsConfirmedOff)
        {
            yield return ("▲ outputs NOT confirmed off", 8, true);
        }

        if (start.Simulated)
        {
            yield return ("SIMULATED", 8, true);
        }
    }

    private static Look Fitting(string text, Look look, float width)
    {
        while (look.Size > LeastSize && PdfFont.Width(text, look) > width)
        {
            look = look with { Size = look.Size - 0.5f };
        }

        return look;
    }

    // A serial too long even when small: its end tells units apart.
    private static string Fitted(string text, Look look, float width)
    {
        while (text.Length > 2 && PdfFont.Width(text, look) > width)
        {
            text = "…" + text[2..];
        }

        return text;
    }
}
