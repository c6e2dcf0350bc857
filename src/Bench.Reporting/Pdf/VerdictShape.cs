using System.Globalization;
using System.Xml.Linq;
using SkiaSharp;

namespace Bench.Reporting.Pdf;

/// <summary>Draws a verdict's shape from its drawing in the page (<see cref="Html.Shapes"/>).</summary>
internal static class VerdictShape
{
    /// <summary>Edge of the drawing's view box.</summary>
    private const float Edge = 40;

    /// <summary>Draws it into an area, in one colour.</summary>
    public static void Draw(SKCanvas canvas, XElement svg, SKRect area, SKColor color)
    {
        XElement shape = svg.Elements().Single();
        bool filled = shape.Attribute("fill")?.Value != "none";
        using SKPaint paint = new()
        {
            Color = color,
            IsAntialias = true,
            Style = filled ? SKPaintStyle.Fill : SKPaintStyle.Stroke,
            StrokeWidth = filled ? 0 : Number(shape, "stroke-width"),
        };
        canvas.Save();
        canvas.Translate(area.Left, area.Top);
        canvas.Scale(area.Width / Edge, area.Height / Edge);
        if (shape.Name == "circle")
        {
            canvas.DrawCircle(Number(shape, "cx"), Number(shape, "cy"), Number(shape, "r"), paint);
        }
        else
        {
            using SKPath path = SKPath.ParseSvgPathData(shape.Attribute("d")!.Value);
            canvas.DrawPath(path, paint);
        }

        canvas.Restore();
    }

    private static float Number(XElement element, string name) =>
        float.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);
}
