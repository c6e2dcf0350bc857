using System.IO.Compression;
using Parquet;
using Parquet.Schema;

namespace Bench.Cli.Exporting;

/// <summary>A table as an Apache Parquet file, written a group of rows at a time (docs/export.md).</summary>
internal static class ParquetRows
{
    /// <summary>Version of the tables' columns; in the file's metadata.</summary>
    public const string SchemaVersion = "1";

    /// <summary>Rows in a group: what is held in memory at once.</summary>
    private const int GroupRows = 16_384;

    /// <summary>Writes the table.</summary>
    /// <param name="table">The table.</param>
    /// <param name="name">Its name, for the metadata.</param>
    /// <param name="output">Where it goes. Stays open.</param>
    public static void Write(ExportTable table, string name, Stream output) =>
        Task.Run(() => WriteAsync(table, name, output)).GetAwaiter().GetResult();

    private static async Task WriteAsync(ExportTable table, string name, Stream output)
    {
        DataField[] fields = [.. table.Columns.Select(Field)];
        ParquetOptions options = new() { CompressionMethod = CompressionMethod.Zstd, CompressionLevel = CompressionLevel.Optimal };
        await using ParquetWriter writer = await ParquetWriter.CreateAsync(new ParquetSchema(fields.Cast<Field>().ToArray()), output, options);
        writer.CustomMetadata = new Dictionary<string, string>(StringComparer.Ordinal) { ["bench.schema_version"] = SchemaVersion, ["bench.table"] = name };
        foreach (object?[][] rows in table.Rows.Chunk(GroupRows))
        {
            using ParquetRowGroupWriter group = writer.CreateRowGroup();
            for (int i = 0; i < fields.Length; i++)
            {
                await WriteAsync(group, fields[i], table.Columns[i].Kind, [.. rows.Select(row => row[i])]);
            }

            group.CompleteValidate();
        }
    }

    private static Task WriteAsync(ParquetRowGroupWriter group, DataField field, CellKind kind, object?[] cells) => kind switch
    {
        CellKind.Whole => group.WriteAsync<int>(field, Array.ConvertAll(cells, c => (int?)c)),
        CellKind.Number => group.WriteAsync<double>(field, Array.ConvertAll(cells, c => (double?)c)),
        CellKind.Flag => group.WriteAsync<bool>(field, Array.ConvertAll(cells, c => (bool?)c)),
        CellKind.Instant => group.WriteAsync<DateTime>(field, Array.ConvertAll(cells, c => ((DateTimeOffset?)c)?.UtcDateTime)),
        _ => group.WriteAsync(field, Array.ConvertAll(cells, c => (string?)c)!),
    };

    private static DataField Field(ExportColumn column) => column.Kind switch
    {
        CellKind.Whole => new DataField<int?>(column.Name),
        CellKind.Number => new DataField<double?>(column.Name),
        CellKind.Flag => new DataField<bool?>(column.Name),
        CellKind.Instant => new DateTimeDataField(column.Name, DateTimeFormat.Timestamp, isAdjustedToUTC: true, DateTimeTimeUnit.Micros, isNullable: true),
        _ => new DataField<string>(column.Name, nullable: true),
    };
}
