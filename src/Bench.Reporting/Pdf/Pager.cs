using SkiaSharp;

namespace Bench.Reporting.Pdf;

/// <summary>Puts strips on pages.</summary>
/// <param name="size">Of a page, points.</param>
/// <param name="margins">Free edges of a page, points; the foot line stands in the lower one.</param>
internal sealed class Pager(SKSize size, SKRect margins)
{
    private readonly List<SKPicture> _pages = [];

    /// <summary>Height there is for strips.</summary>
    public float Room => size.Height - margins.Top - margins.Bottom;

    /// <summary>The pages of a document.</summary>
    public IReadOnlyList<SKPicture> Pages(IReadOnlyList<Strip> strips)
    {
        List<(Strip Strip, float Y)> page = [];
        float used = 0;
        for (int first = 0; first < strips.Count;)
        {
            int count = Chain(strips, first);
            if (page.Count > 0 && used + Height(strips, first, count) > Room)
            {
                End(page);
                page.Clear();
                used = 0;
                if (strips[first].Repeat is { } head)
                {
                    page.Add((head, 0));
                    used = head.Height;
                }
            }

            for (int i = first; i < first + count; i++)
            {
                page.Add((strips[i], used));
                used += strips[i].Height;
            }

            first += count;
        }

        End(page);
        return _pages;
    }

    // A chain higher than a page is no chain.
    private int Chain(IReadOnlyList<Strip> strips, int first)
    {
        int count = 1;
        while (first + count < strips.Count && strips[first + count - 1].KeepNext)
        {
            count++;
        }

        return Height(strips, first, count) > Room - (strips[first].Repeat?.Height ?? 0) ? 1 : count;
    }

    private static float Height(IReadOnlyList<Strip> strips, int first, int count)
    {
        float height = 0;
        for (int i = first; i < first + count; i++)
        {
            height += strips[i].Height;
        }

        return height;
    }

    private void End(List<(Strip Strip, float Y)> page)
    {
        using SKPictureRecorder recorder = new();
        SKCanvas canvas = recorder.BeginRecording(SKRect.Create(size));
        foreach ((Strip strip, float y) in page)
        {
            strip.Draw(canvas, margins.Top + y);
        }

        _pages.Add(recorder.EndRecording());
    }
}
