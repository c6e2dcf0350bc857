using System.Text.Json;
using Bench.Model.Serialization;

namespace Bench.Cli.Exporting;

/// <summary>A table as one JSON array (RFC 8259), an object a row, the columns' names as keys (docs/export.md).</summary>
internal static class JsonRows
{
    /// <summary>Writes the table. The writer stays open.</summary>
    public static void Write(ExportTable table, TextWriter output)
    {
        string separator = "[\n";
        foreach (object?[] row in table.Rows)
        {
            output.Write(separator);
            output.Write(JsonSerializer.Serialize(Named(table.Columns, row), BenchJson.Compact));
            separator = ",\n";
        }

        output.Write(separator[0] == '[' ? "[]\n" : "\n]\n");
    }

    private static Dictionary<string, object?> Named(IReadOnlyList<ExportColumn> columns, object?[] row)
    {
        // The order of insertion is the order of writing.
        Dictionary<string, object?> named = new(columns.Count, StringComparer.Ordinal);
        for (int i = 0; i < columns.Count; i++)
        {
            named.Add(columns[i].Name, row[i] is DateTimeOffset at ? ExportTable.InstantText(at) : row[i]);
        }

        return named;
    }
}
