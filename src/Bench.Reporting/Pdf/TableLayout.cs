using System.Globalization;
using System.Xml.Linq;
using SkiaSharp;

namespace Bench.Reporting.Pdf;

/// <summary>Lays out a table: columns as wide as their words ask for, the head again on every page, rows in one piece.</summary>
internal static class TableLayout
{
    private const float Pad = 4;
    private const float PadY = 1.8f;
    private const float LogPadY = 0.2f;
    private const float LogSize = 6.6f;

    /// <summary>The strips of a table.</summary>
    /// <param name="table">Its markup.</param>
    /// <param name="x">Left edge.</param>
    /// <param name="width">Width it fills.</param>
    /// <param name="look">Look of its text.</param>
    public static IEnumerable<Strip> Of(XElement table, float x, float width, Look look)
    {
        // A log is long and read in passing: small, and without rules.
        bool isLog = InlineReader.Has(table, "log");
        look = isLog ? look with { Size = LogSize } : look;
        List<Row> rows =
        [
            .. table.Descendants("tr").Select(tr => new Row(
                IsHead: tr.Parent!.Name == "thead",
                IsStatement: InlineReader.Has(tr, "statement"),
                EndsGroup: tr.Parent.Name != "tbody" || !InlineReader.Has(tr.Parent, "finding") || !tr.ElementsAfterSelf().Any(),
                [.. tr.Elements().Select(cell => Read(cell, tr, look))])),
        ];
        if (rows.Count == 0)
        {
            yield break;
        }

        float[] widths = Columns(rows, width);
        Row? head = rows.FirstOrDefault(r => r.IsHead);
        Strip[] headStrips = head is null ? [] : [.. Lay(head, x, widths, isLog, null)];
        Strip? repeat = headStrips.Length == 0 ? null : new Strip(
            headStrips.Sum(s => s.Height),
            (canvas, y) =>
            {
                foreach (Strip strip in headStrips)
                {
                    strip.Draw(canvas, y);
                    y += strip.Height;
                }
            });
        if (repeat is not null)
        {
            yield return repeat with { KeepNext = true };
        }

        foreach (Row row in rows.Where(r => !r.IsHead))
        {
            foreach (Strip strip in Lay(row, x, widths, isLog, repeat))
            {
                yield return strip;
            }
        }

        yield return new Strip(0.5f, (canvas, y) => Ink.Line(canvas, x, y, x + width, y, Ink.Rule, 0.5f));
    }

    private static Cell Read(XElement cell, XElement row, Look look)
    {
        bool head = row.Parent!.Name == "thead";
        Look own = look with
        {
            Bold = head,
            Color = InlineReader.Classes(cell).Select(Ink.Tone).FirstOrDefault(c => c is not null)
                ?? (InlineReader.Has(row, "statement") ? Ink.Quiet : look.Color),
        };
        int span = int.Parse(cell.Attribute("colspan")?.Value ?? "1", CultureInfo.InvariantCulture);
        return new Cell(InlineReader.Of(cell, own), span, InlineReader.Has(cell, "number"));
    }

    // As style sheets do it (CSS 2.1, 17.5.2.2): every column at least its widest word, the rest by what each would like.
    private static float[] Columns(List<Row> rows, float width)
    {
        int count = rows.Max(r => r.Cells.Sum(c => c.Columns));
        float[] least = new float[count];
        float[] most = new float[count];
        foreach (Row row in rows)
        {
            int column = 0;
            foreach (Cell cell in row.Cells)
            {
                if (cell.Columns == 1)
                {
                    (float word, float line) = Wrapping.Widths(cell.Text);
                    least[column] = Math.Max(least[column], (cell.IsNumber ? line : word) + (2 * Pad));
                    most[column] = Math.Max(most[column], line + (2 * Pad));
                }

                column += cell.Columns;
            }
        }

        float leastSum = least.Sum();
        float mostSum = most.Sum();
        if (leastSum >= width)
        {
            return [.. least.Select(l => l * width / leastSum)];
        }

        return mostSum <= width
            ? [.. most.Select(m => m * width / mostSum)]
            : [.. least.Zip(most, (l, m) => l + ((width - leastSum) * (m - l) / (mostSum - leastSum)))];
    }

    // One strip a line, so that even a row higher than a page finds room.
    private static IEnumerable<Strip> Lay(Row row, float x, float[] widths, bool isLog, Strip? repeat)
    {
        List<(float X, float Width, bool Right, IReadOnlyList<TextLine> Lines)> cells = [];
        int column = 0;
        float left = x;
        foreach (Cell cell in row.Cells)
        {
            float width = widths.Skip(column).Take(cell.Columns).Sum();
            cells.Add((left + Pad, width - (2 * Pad), cell.IsNumber, Wrapping.Lines(cell.Text, width - (2 * Pad))));
            left += width;
            column += cell.Columns;
        }

        int lines = Math.Max(1, cells.Max(c => c.Lines.Count));
        for (int i = 0; i < lines; i++)
        {
            int line = i;
            float pad = isLog ? LogPadY : PadY;
            float above = line == 0 && !row.IsStatement ? pad : 0;
            float below = line == lines - 1 ? pad : 0;
            TextLine[] here = [.. cells.Where(c => line < c.Lines.Count).Select(c => c.Lines[line])];
            float height = (here.Length == 0 ? 0 : here.Max(l => l.Height)) + above + below;
            yield return new Strip(height, Draw, KeepNext: line < lines - 1 || !row.EndsGroup, repeat);

            void Draw(SKCanvas canvas, float y)
            {
                if (line == 0 && !row.IsStatement && !row.IsHead && !isLog)
                {
                    Ink.Line(canvas, x, y, left, y, Ink.Rule, 0.5f);
                }

                foreach ((float cellX, float width, bool right, IReadOnlyList<TextLine> set) in cells.Where(c => line < c.Lines.Count))
                {
                    set[line].Draw(canvas, right ? cellX + width - set[line].Width : cellX, y + above);
                }

                if (row.IsHead && line == lines - 1)
                {
                    Ink.Line(canvas, x, y + height, left, y + height, Ink.Text, 0.8f);
                }
            }
        }
    }

    private sealed record Row(bool IsHead, bool IsStatement, bool EndsGroup, IReadOnlyList<Cell> Cells);

    private sealed record Cell(IReadOnlyList<Span> Text, int Columns, bool IsNumber);
}
