using SkiaSharp;

namespace Bench.Cli.Demonstrating;

/// <summary>A made-up photo for a made-up return: the opened drive side with fluid in it, drawn.</summary>
internal static class DrawnPhoto
{
    private const int Width = 720;
    private const int Height = 480;

    /// <summary>The picture, PNG.</summary>
    public static byte[] Png()
    {
        using SKBitmap bitmap = new(Width, Height);
        using SKCanvas canvas = new(bitmap);
        canvas.Clear(new SKColor(0x8A, 0x8F, 0x86));
        Round(canvas, SKRect.Create(70, 50, 580, 380), 40, new SKColor(0x2E, 0x38, 0x3D));
        Round(canvas, SKRect.Create(95, 75, 530, 330), 28, new SKColor(0xC9, 0xCD, 0xC6));
        Round(canvas, SKRect.Create(130, 120, 170, 220), 12, new SKColor(0x6E, 0x75, 0x78));
        Disc(canvas, 420, 230, 118, new SKColor(0xB5, 0x8A, 0x3C));
        Disc(canvas, 420, 230, 96, new SKColor(0xC9, 0xCD, 0xC6));
        Disc(canvas, 420, 230, 34, new SKColor(0x55, 0x5B, 0x5E));
        Pool(canvas);
        using SKData png = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        return png.ToArray();
    }

    // The fluid stands in the lower half and has crept up the ring.
    private static void Pool(SKCanvas canvas)
    {
        using SKPath pool = SKPath.ParseSvgPathData("M97 330 C190 300 260 345 340 320 C420 296 520 338 623 305 L623 380 Q623 403 598 403 L122 403 Q97 403 97 380 Z");
        using SKPaint paint = new() { Color = new SKColor(0x3F, 0x6B, 0x4A, 0xB8), IsAntialias = true };
        canvas.DrawPath(pool, paint);
        foreach ((float x, float y, float radius) in new[] { (352f, 296f, 9f), (384f, 312f, 6f), (468f, 288f, 8f), (505f, 262f, 5f), (300f, 290f, 7f) })
        {
            canvas.DrawCircle(x, y, radius, paint);
        }
    }

    private static void Round(SKCanvas canvas, SKRect area, float radius, SKColor color)
    {
        using SKPaint paint = new() { Color = color, IsAntialias = true };
        canvas.DrawRoundRect(area, radius, radius, paint);
    }

    private static void Disc(SKCanvas canvas, float x, float y, float radius, SKColor color)
    {
        using SKPaint paint = new() { Color = color, IsAntialias = true };
        canvas.DrawCircle(x, y, radius, paint);
    }
}
