using ScottPlot;
using SkiaSharp;

namespace Bench.Reporting.Plots;

/// <summary>One plot in this project's style. Limits of the axes come first: labels are placed by them.</summary>
internal sealed class PlotSheet : IDisposable
{
    /// <summary>Width in CSS pixels. Small, with large text: it must be legible when scaled down to a phone's 328.</summary>
    public const int Width = 480;

    /// <summary>Height of an ordinary plot in CSS pixels.</summary>
    public const int DefaultHeight = 300;

    private const float TextSize = 14;
    private const float Gap = 3;
    private readonly Plot _plot = new();

    public PlotSheet(string xLabel, string yLabel, double x0, double x1, double y0, double y1, int height = DefaultHeight)
        : this(height)
    {
        Style(_plot.Axes.Bottom, xLabel);
        Style(_plot.Axes.Left, yLabel);
        _plot.Axes.SetLimits(x0, x1, y0, y1);
        X0 = x0;
        X1 = x1;
        Y0 = y0;
        Y1 = y1;
    }

    private PlotSheet(int height)
    {
        PlotFont.Register();
        Height = height;
        _plot.Font.Set(PlotFont.Family);
        _plot.FigureBackground.Color = Colors.Transparent;
        _plot.DataBackground.Color = Colors.Transparent;
        _plot.Axes.Right.FrameLineStyle.Width = 0;
        _plot.Axes.Top.FrameLineStyle.Width = 0;
        _plot.Grid.MajorLineColor = PlotColors.Grid;
    }

    /// <summary>Height in CSS pixels.</summary>
    public int Height { get; }

    public double X0 { get; private init; }

    public double X1 { get; private init; }

    public double Y0 { get; private init; }

    public double Y1 { get; private init; }

    /// <summary>A sheet without axes, the same scale both ways, for a dial of radius 1 with room for words beside and below it.</summary>
    /// <param name="dial">Height of the dial in CSS pixels.</param>
    /// <param name="foot">Height of what stands below it.</param>
    public static PlotSheet Dial(int dial, int foot)
    {
        const double reach = 1.2;
        double perPixel = 2 * reach / dial;
        PlotSheet sheet = new(dial + foot)
        {
            X0 = -Width * perPixel / 2,
            X1 = Width * perPixel / 2,
            Y0 = -reach - (foot * perPixel),
            Y1 = reach,
        };
        sheet._plot.HideAxesAndGrid();
        sheet._plot.Layout.Frameless();
        sheet._plot.Axes.SetLimits(sheet.X0, sheet.X1, sheet.Y0, sheet.Y1);
        return sheet;
    }

    public void Line(double[] xs, double[] ys, Color color, LinePattern pattern, float width = 1.5f)
    {
        ScottPlot.Plottables.Scatter line = _plot.Add.ScatterLine(xs, ys, color);
        line.LinePattern = pattern;
        line.LineWidth = width;
        line.MarkerSize = 0;
    }

    public void Mark(double x, double y, MarkerShape shape, Color color, float size = 8) =>
        _plot.Add.Marker(x, y, shape, size, color).MarkerLineWidth = 1.5f;

    public void Area(IEnumerable<Coordinates> outline, Color fill, Color edge, float edgeWidth = 1)
    {
        ScottPlot.Plottables.Polygon area = _plot.Add.Polygon([.. outline]);
        area.FillColor = fill;
        area.LineColor = edge;
        area.LineWidth = edgeWidth;
        area.MarkerSize = 0;
    }

    /// <summary>A permitted range of y, shaded over the whole width.</summary>
    public void Band(double from, double to) =>
        Area(
            [new(X0, from), new(X1, from), new(X1, to), new(X0, to)], PlotColors.Band, PlotColors.Band, 0);

    /// <summary>A range of y hatched over the whole width; nothing where it has no height.</summary>
    public void Hatch(double from, double to)
    {
        if (to > from)
        {
            _plot.Add.Plottable(new Hatch(new CoordinateRect(X0, X1, from, to), PlotColors.Quiet));
        }
    }

    /// <summary>A level with its name written over (or under) its right (or left) end.</summary>
    public void Level(double y, string label, Color color, LinePattern pattern, bool under = false, bool left = false)
    {
        Line([X0, X1], [y, y], color, pattern, 1.2f);
        Note(
            left ? X0 : X1,
            y,
            label,
            color,
            (under, left) switch
            {
                (true, true) => Alignment.UpperLeft,
                (true, false) => Alignment.UpperRight,
                (false, true) => Alignment.LowerLeft,
                _ => Alignment.LowerRight,
            });
    }

    /// <summary>A place on x with its name at the top.</summary>
    public void Place(double x, string label)
    {
        Line([x, x], [Y0, Y1], PlotColors.Quiet, LinePattern.Dotted, 1.2f);
        Note(x, Y1, label, PlotColors.Ink, Alignment.UpperLeft);
    }

    public void Note(double x, double y, string text, Color color, Alignment alignment)
    {
        ScottPlot.Plottables.Text note = _plot.Add.Text(PlotText.Printable(text), x, y);
        note.LabelFontName = PlotFont.Family;
        note.LabelFontSize = TextSize;
        note.LabelFontColor = color;
        note.LabelAlignment = alignment;
        note.LabelBackgroundColor = Colors.Transparent;
        note.LabelBorderWidth = 0;
        note.LabelPadding = 0;

        // Off the line it names, and off its own point.
        note.OffsetY = alignment.IsUpperEdge() ? Gap : alignment.IsLowerEdge() ? -Gap : 0;
        note.OffsetX = alignment.IsLeftEdge() ? Gap + 1 : alignment.IsRightEdge() ? -Gap - 1 : 0;
    }

    /// <summary>Words instead of numbers on the y axis.</summary>
    public void YWords(double[] places, string[] words)
    {
        _plot.Axes.Left.SetTicks(places, [.. words.Select(PlotText.Printable)]);
        _plot.Axes.Left.MajorTickStyle.Width = 0;
        _plot.Grid.YAxisStyle.IsVisible = false;
    }

    public string ToSvg(string id) => PlotSvg.Tidy(_plot.GetSvgXml(Width, Height), id, Width, Height);

    /// <summary>The plot as vectors. Only after <see cref="ToSvg"/>: the library's first drawing is two.</summary>
    public SKPicture ToPicture()
    {
        using SKPictureRecorder recorder = new();
        SKCanvas canvas = recorder.BeginRecording(SKRect.Create(Width, Height));
        _plot.Render(canvas, Width, Height);
        return recorder.EndRecording();
    }

    public void Dispose() => _plot.Dispose();

    private static void Style(IAxis axis, string label)
    {
        axis.Label.Text = label;
        axis.Label.Bold = false;
        axis.Label.FontSize = TextSize + 1;
        axis.Label.ForeColor = PlotColors.Ink;
        axis.TickLabelStyle.FontSize = TextSize;
        axis.TickLabelStyle.ForeColor = PlotColors.Ink;
        axis.FrameLineStyle.Color = PlotColors.Quiet;
        axis.MajorTickStyle.Color = PlotColors.Quiet;
        axis.TickGenerator = new ScottPlot.TickGenerators.NumericAutomatic
        {
            MinorTickGenerator = new ScottPlot.TickGenerators.EvenlySpacedMinorTickGenerator(1),
        };
    }
}
