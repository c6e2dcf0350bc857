using System.Globalization;
using System.Text;

namespace Bench.Cli.Exporting;

/// <summary>
/// A table as comma-separated values: RFC 4180 with a header line and CRLF after every record. Text that a spreadsheet
/// would take for a formula gets an apostrophe before it; numbers stay numbers (docs/export.md).
/// </summary>
internal static class CsvText
{
    private const string LineEnd = "\r\n";

    // What spreadsheets begin a formula with, or skip before one (common practice, no source).
    private const string FormulaStarts = "=+-@\t\r";

    // RFC 4180, section 2, rule 6: fields with these are enclosed in double quotes.
    private const string QuotedFor = "\",\r\n";

    /// <summary>Writes the table. The writer stays open.</summary>
    public static void Write(ExportTable table, TextWriter output)
    {
        Line(table.Columns.Select(c => c.Name), output);
        foreach (object?[] row in table.Rows)
        {
            Line(row.Select(Field), output);
        }
    }

    private static void Line(IEnumerable<string> fields, TextWriter output)
    {
        output.Write(string.Join(',', fields));
        output.Write(LineEnd);
    }

    private static string Field(object? cell) => cell switch
    {
        null => string.Empty,
        string text => Quoted(text.Length > 0 && FormulaStarts.Contains(text[0], StringComparison.Ordinal) ? "'" + text : text),
        bool yes => yes ? "true" : "false",
        DateTimeOffset at => ExportTable.InstantText(at),
        IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
        _ => throw new ArgumentException($"a cell can't hold a {cell.GetType().Name}", nameof(cell)),
    };

    private static string Quoted(string text) =>
        text.AsSpan().ContainsAny(QuotedFor)
            ? new StringBuilder(text).Replace("\"", "\"\"").Insert(0, '"').Append('"').ToString()
            : text;
}
