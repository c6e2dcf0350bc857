using System.Data;
using System.Globalization;
using System.Xml;
using MiniExcelLibs;
using MiniExcelLibs.Attributes;
using MiniExcelLibs.OpenXml;

namespace Bench.Cli.Exporting;

/// <summary>
/// A table as a workbook of one sheet (Office Open XML, ECMA-376), written row by row (docs/export.md). Cells are typed:
/// text is text, whatever it begins with, and never a formula.
/// </summary>
internal static class SheetRows
{
    /// <summary>Rows a sheet has, the header among them (ECMA-376 part 1, 18.3.1.73; the limit is that of spreadsheets, common practice, no source).</summary>
    public const int MostRows = 1_048_576;

    /// <summary>Characters a cell holds (the same).</summary>
    public const int MostCharacters = 32_767;

    /// <summary>Writes the table.</summary>
    /// <param name="table">The table.</param>
    /// <param name="name">Name of the sheet.</param>
    /// <param name="output">Where it goes. Stays open.</param>
    /// <exception cref="CliException">It has more rows than a sheet.</exception>
    public static void Write(ExportTable table, string name, Stream output)
    {
        OpenXmlConfiguration configuration = new()
        {
            Culture = CultureInfo.InvariantCulture,
            AutoFilter = false,
            DynamicColumns =
            [
                .. table.Columns.Where(c => c.Kind == CellKind.Instant).Select(c => new DynamicExcelColumn(c.Name) { Format = "yyyy-mm-dd hh:mm:ss" }),
            ],
        };
        using IEnumerator<object?[]> rows = table.Rows.GetEnumerator();
        object content = rows.MoveNext() ? Named(table.Columns, rows) : Empty(table.Columns);
        MiniExcel.SaveAs(output, content, printHeader: true, sheetName: name, excelType: ExcelType.XLSX, configuration: configuration);
    }

    /// <summary>The rows from the one the enumerator stands at.</summary>
    private static IEnumerable<Dictionary<string, object?>> Named(IReadOnlyList<ExportColumn> columns, IEnumerator<object?[]> rows)
    {
        int written = 1;
        do
        {
            if (++written > MostRows)
            {
                throw new CliException(
                    ExitCode.BadInput, $"--format xlsx: a sheet holds {MostRows - 1} rows and there are more; choose fewer runs, or take csv or parquet");
            }

            // The order of insertion is the order of writing.
            Dictionary<string, object?> named = new(columns.Count, StringComparer.Ordinal);
            for (int i = 0; i < columns.Count; i++)
            {
                named.Add(columns[i].Name, Cell(rows.Current[i]));
            }

            yield return named;
        }
        while (rows.MoveNext());
    }

    // Without a row nothing else would tell the columns.
    private static DataTable Empty(IReadOnlyList<ExportColumn> columns)
    {
        DataTable table = new() { Locale = CultureInfo.InvariantCulture };
        foreach (ExportColumn column in columns)
        {
            table.Columns.Add(column.Name, typeof(string));
        }

        return table;
    }

    private static object? Cell(object? cell) => cell switch
    {
        string text => Printable(text),
        DateTimeOffset at => at.UtcDateTime,
        _ => cell,
    };

    // XML 1.0 has no place for most control characters.
    private static string Printable(string text)
    {
        string printable = text.All(c => XmlConvert.IsXmlChar(c) || char.IsSurrogate(c))
            ? text
            : string.Concat(text.Select(c => XmlConvert.IsXmlChar(c) || char.IsSurrogate(c) ? c : '\uFFFD'));
        return printable.Length <= MostCharacters ? printable : printable[..(MostCharacters - 1)] + "…";
    }
}
