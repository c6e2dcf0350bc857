using SkiaSharp;

namespace Bench.Reporting.Pdf;

/// <summary>One set line: pieces of one look each, from left to right.</summary>
internal sealed class TextLine
{
    /// <summary>Height of a line in sizes of its font.</summary>
    public const float Leading = 1.32f;

    private readonly List<(string Text, Look Look, float Width)> _pieces = [];

    /// <summary>Width in points.</summary>
    public float Width => _pieces.Sum(p => p.Width);

    /// <summary>Whether nothing stands in it.</summary>
    public bool IsEmpty => _pieces.Count == 0;

    /// <summary>Height in points.</summary>
    public float Height => Leading * (_pieces.Count == 0 ? 0 : _pieces.Max(p => p.Look.Size));

    /// <summary>Adds at the end; text of the same look becomes one piece, so that it stays one text to a reader.</summary>
    public void Add(string text, Look look, float width)
    {
        if (_pieces.Count > 0 && _pieces[^1].Look == look)
        {
            (string Text, Look Look, float Width) last = _pieces[^1];
            _pieces[^1] = (last.Text + text, look, last.Width + width);
        }
        else
        {
            _pieces.Add((text, look, width));
        }
    }

    /// <summary>Draws it with its upper edge at a height.</summary>
    public void Draw(SKCanvas canvas, float x, float top)
    {
        float baseLine = top + (Height * 0.76f);
        foreach ((string text, Look look, float width) in _pieces)
        {
            PdfFont.Draw(canvas, text, x, baseLine, look);
            if (look.Target is { } target)
            {
                using SKData name = SKData.CreateCopy(System.Text.Encoding.ASCII.GetBytes(target + '\0'));
                canvas.DrawLinkDestinationAnnotation(new SKRect(x, top, x + width, top + Height), name);
            }

            x += width;
        }
    }
}
