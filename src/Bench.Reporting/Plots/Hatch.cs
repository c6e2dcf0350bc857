using ScottPlot;
using SkiaSharp;

namespace Bench.Reporting.Plots;

/// <summary>
/// A rectangle hatched by rising lines: told from a shaded one in grey, too. The library's own hatch is a bitmap, which
/// SVG and PDF would not keep as vectors.
/// </summary>
internal sealed class Hatch(CoordinateRect place, Color color) : IPlottable
{
    private const float Step = 7;

    /// <inheritdoc/>
    public bool IsVisible { get; set; } = true;

    /// <inheritdoc/>
    public IAxes Axes { get; set; } = new Axes();

    /// <inheritdoc/>
    public IEnumerable<LegendItem> LegendItems => LegendItem.None;

    /// <inheritdoc/>
    public AxisLimits GetAxisLimits() => new(place);

    /// <inheritdoc/>
    public void Render(RenderPack rp)
    {
        PixelRect area = Axes.GetPixelRect(place);
        using SKPath lines = new();

        // Each line is cut at the edges by hand: a clip would be one more element for each band.
        for (float foot = area.Left - area.Height; foot < area.Right; foot += Step)
        {
            float from = Math.Max(0, area.Left - foot);
            float to = Math.Min(area.Height, area.Right - foot);
            lines.MoveTo(foot + from, area.Bottom - from);
            lines.LineTo(foot + to, area.Bottom - to);
        }

        using SKPaint paint = new() { Color = color.ToSKColor(), IsStroke = true, StrokeWidth = 0.75f, IsAntialias = true };
        rp.Canvas.DrawPath(lines, paint);
    }
}
