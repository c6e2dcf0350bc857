using Bench.Reporting.Plots;
using SkiaSharp;

namespace Bench.Reporting.Pdf;

/// <summary>Colours of a printed page: those of the style sheet on white.</summary>
internal static class Ink
{
    public static SKColor Text { get; } = Of(PlotColors.Ink);

    public static SKColor Quiet { get; } = Of(PlotColors.Quiet);

    public static SKColor Rule { get; } = SKColor.Parse("#D3D9DE");

    public static SKColor Sheet { get; } = SKColor.Parse("#F4F6F7");

    /// <summary>Colour of a tone (<see cref="Text.Mark.Tone"/>), where there is one.</summary>
    public static SKColor? Tone(string? name) => name switch
    {
        "good" => SKColor.Parse("#14563A"),
        "work" => SKColor.Parse("#7A4A00"),
        "bad" => SKColor.Parse("#8F1D12"),
        "open" => SKColor.Parse("#3D4A80"),
        _ => null,
    };

    public static void Line(SKCanvas canvas, float x0, float y0, float x1, float y1, SKColor color, float width)
    {
        using SKPaint paint = new() { Color = color, StrokeWidth = width, Style = SKPaintStyle.Stroke, IsAntialias = true };
        canvas.DrawLine(x0, y0, x1, y1, paint);
    }

    public static void Fill(SKCanvas canvas, SKRect area, SKColor color)
    {
        using SKPaint paint = new() { Color = color, Style = SKPaintStyle.Fill };
        canvas.DrawRect(area, paint);
    }

    private static SKColor Of(ScottPlot.Color color) => new(color.Red, color.Green, color.Blue);
}
