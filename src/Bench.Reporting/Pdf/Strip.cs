using SkiaSharp;

namespace Bench.Reporting.Pdf;

/// <summary>
/// A horizontal piece of a document that no page break cuts. A document is a sequence of strips; what must not be parted
/// is a chain of strips that keep with the next.
/// </summary>
/// <param name="Height">In points.</param>
/// <param name="Draw">Draws it with its upper edge at the given height of the page, in points.</param>
/// <param name="KeepNext">No page break after it, unless the chain is longer than a page.</param>
/// <param name="Repeat">What stands again at the top when a page begins with this strip: a table's head.</param>
internal sealed record Strip(float Height, Action<SKCanvas, float> Draw, bool KeepNext = false, Strip? Repeat = null)
{
    /// <summary>White space.</summary>
    public static Strip Space(float height, bool keepNext = false) => new(height, (_, _) => { }, keepNext);

    /// <summary>The strips as a chain that ends with the last of them.</summary>
    public static IEnumerable<Strip> Together(IReadOnlyList<Strip> strips) =>
        strips.Select((strip, index) => index < strips.Count - 1 ? strip with { KeepNext = true } : strip);

    /// <summary>Two columns of strips beside each other as one strip; one after the other where that is higher than the limit.</summary>
    public static IEnumerable<Strip> Beside(IReadOnlyList<Strip> left, IReadOnlyList<Strip> right, float highest)
    {
        float height = Math.Max(left.Sum(s => s.Height), right.Sum(s => s.Height));
        return height > highest
            ? [.. left, .. right]
            :
            [
                new Strip(
                    height,
                    (canvas, y) =>
                    {
                        DrawAll(left, canvas, y);
                        DrawAll(right, canvas, y);
                    }),
            ];
    }

    /// <summary>The strips on something drawn behind each of them: given canvas, upper edge, height, and whether it is the first or last.</summary>
    public static IEnumerable<Strip> On(IReadOnlyList<Strip> strips, Action<SKCanvas, float, float, bool, bool> ground) =>
        strips.Select((strip, index) => strip with
        {
            Draw = (canvas, y) =>
            {
                ground(canvas, y, strip.Height, index == 0, index == strips.Count - 1);
                strip.Draw(canvas, y);
            },
        });

    private static void DrawAll(IReadOnlyList<Strip> strips, SKCanvas canvas, float y)
    {
        foreach (Strip strip in strips)
        {
            strip.Draw(canvas, y);
            y += strip.Height;
        }
    }
}
