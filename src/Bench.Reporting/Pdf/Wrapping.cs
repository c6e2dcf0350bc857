namespace Bench.Reporting.Pdf;

/// <summary>Breaks text into lines.</summary>
internal static class Wrapping
{
    /// <summary>
    /// The lines of a text, none wider than the width: broken at white space, never at a no-break space; a word wider
    /// than a line is broken where the line ends.
    /// </summary>
    public static IReadOnlyList<TextLine> Lines(IEnumerable<Span> spans, float width)
    {
        List<TextLine> lines = [new()];
        foreach (Word word in Words(spans))
        {
            if (word.BreaksLine)
            {
                lines.Add(new());
                continue;
            }

            float space = lines[^1].IsEmpty || !word.AfterSpace ? 0 : PdfFont.Width(" ", word.Pieces[0].Look);
            if (!lines[^1].IsEmpty && lines[^1].Width + space + word.Width > width)
            {
                lines.Add(new());
                space = 0;
            }

            foreach ((string text, Look look) in word.Pieces)
            {
                string before = space > 0 ? " " : string.Empty;
                space = 0;
                AddBroken(lines, before + text, look, width);
            }
        }

        return lines[^1].IsEmpty ? lines[..^1] : lines;
    }

    /// <summary>Width of the widest word, and of the text on one line.</summary>
    public static (float Least, float Most) Widths(IEnumerable<Span> spans)
    {
        float least = 0;
        float most = 0;
        float line = 0;
        foreach (Word word in Words(spans))
        {
            if (word.BreaksLine)
            {
                line = 0;
                continue;
            }

            least = Math.Max(least, word.Width);
            line += word.Width + (line > 0 && word.AfterSpace ? PdfFont.Width(" ", word.Pieces[0].Look) : 0);
            most = Math.Max(most, line);
        }

        return (least, most);
    }

    private static void AddBroken(List<TextLine> lines, string text, Look look, float width)
    {
        float whole = PdfFont.Width(text, look);
        while (lines[^1].Width + whole > width + 0.01f && text.Length > 1)
        {
            int kept = text.Length - 1;
            while (kept > 1 && lines[^1].Width + PdfFont.Width(text[..kept], look) > width)
            {
                kept--;
            }

            kept = char.IsHighSurrogate(text[kept - 1]) ? kept + 1 : kept;
            lines[^1].Add(text[..kept], look, PdfFont.Width(text[..kept], look));
            lines.Add(new());
            text = text[kept..];
            whole = PdfFont.Width(text, look);
        }

        lines[^1].Add(text, look, whole);
    }

    // A word may have several looks: a bold word and the comma behind it.
    private static IEnumerable<Word> Words(IEnumerable<Span> spans)
    {
        Word word = new(AfterSpace: false);
        foreach (Span span in spans)
        {
            int start = 0;
            for (int i = 0; i <= span.Text.Length; i++)
            {
                bool isBreak = i < span.Text.Length && span.Text[i] == '\n';
                bool isSpace = i < span.Text.Length && span.Text[i] == ' ';
                if (i < span.Text.Length && !isBreak && !isSpace)
                {
                    continue;
                }

                if (i > start)
                {
                    word.Add(span.Text[start..i], span.Look);
                }

                start = i + 1;
                if (isBreak || isSpace)
                {
                    if (word.Pieces.Count > 0)
                    {
                        yield return word;
                    }

                    if (isBreak)
                    {
                        yield return new Word(AfterSpace: false) { BreaksLine = true };
                    }

                    word = new Word(AfterSpace: isSpace);
                }
            }
        }

        if (word.Pieces.Count > 0)
        {
            yield return word;
        }
    }

    private sealed record Word(bool AfterSpace)
    {
        public List<(string Text, Look Look)> Pieces { get; } = [];

        public float Width { get; private set; }

        public bool BreaksLine { get; init; }

        public void Add(string text, Look look)
        {
            Pieces.Add((text, look));
            Width += PdfFont.Width(text, look);
        }
    }
}
