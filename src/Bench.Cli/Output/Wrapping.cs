using System.Text;

namespace Bench.Cli.Output;

/// <summary>Breaks text between words to fit a terminal.</summary>
internal static class Wrapping
{
    /// <summary>The text with a mark before it and lines that hang below the first; only a word longer than the width is wider.</summary>
    /// <param name="mark">What stands before the first line.</param>
    /// <param name="text">The text.</param>
    /// <param name="width">Columns; null for as many as it takes.</param>
    public static string Of(string mark, string text, int? width)
    {
        if (width is not { } columns || mark.Length + text.Length <= columns)
        {
            return mark + text;
        }

        StringBuilder lines = new(mark);
        int column = mark.Length;
        bool first = true;
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (!first && column + 1 + word.Length > columns)
            {
                lines.Append('\n').Append(' ', mark.Length);
                column = mark.Length;
                first = true;
            }

            lines.Append(first ? "" : " ").Append(word);
            column += word.Length + (first ? 0 : 1);
            first = false;
        }

        return lines.ToString();
    }
}
