using System.Text;

namespace Bench.Reporting.Text;

/// <summary>Lines of plain text with a label before each, broken between words so that they hang beside it.</summary>
/// <param name="text">Where they go; lines end with <c>\n</c>.</param>
/// <param name="width">Columns; only a word longer than them is wider.</param>
internal sealed class LabelledLines(StringBuilder text, int width)
{
    private const int LabelWidth = 8;

    /// <summary>Adds a text under a label; nothing where it is empty.</summary>
    public void Add(string label, string value)
    {
        string start = label.PadRight(LabelWidth);
        int column = 0;
        foreach (string word in PrintableText.Of(value).Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (column > 0 && column + 1 + word.Length > width)
            {
                text.Append('\n');
                column = 0;
                start = new string(' ', LabelWidth);
            }

            string before = column == 0 ? start : " ";
            text.Append(before).Append(word);
            column += before.Length + word.Length;
        }

        if (column > 0)
        {
            text.Append('\n');
        }
    }

    /// <summary>Adds items, the label before the first.</summary>
    public void Items(string label, IEnumerable<string> items)
    {
        foreach (string item in items)
        {
            Add(label, "- " + item);
            label = string.Empty;
        }
    }
}
