using SkiaSharp;

namespace Bench.Reporting.Pdf;

/// <summary>Puts strips on one page: set smaller where they would not fit.</summary>
internal static class OnePage
{
    private const float Step = 0.05f;
    private const float Least = 0.4f;

    /// <summary>The page.</summary>
    /// <param name="size">Of the page, points.</param>
    /// <param name="margin">Free edge, points.</param>
    /// <param name="lay">Lays the strips out for a left edge of 0 and a width.</param>
    public static SKPicture Of(SKSize size, float margin, Func<float, IReadOnlyList<Strip>> lay)
    {
        float width = size.Width - (2 * margin);
        float height = size.Height - (2 * margin);
        float scale = 1;
        IReadOnlyList<Strip> strips = lay(width);
        while (scale > Least && strips.Sum(s => s.Height) * scale > height)
        {
            scale -= Step;
            strips = lay(width / scale);
        }

        using SKPictureRecorder recorder = new();
        SKCanvas canvas = recorder.BeginRecording(SKRect.Create(size));
        canvas.Translate(margin, margin);
        canvas.Scale(scale);
        float y = 0;
        foreach (Strip strip in strips)
        {
            strip.Draw(canvas, y);
            y += strip.Height;
        }

        return recorder.EndRecording();
    }
}
