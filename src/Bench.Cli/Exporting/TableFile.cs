using System.Text;
using Bench.Model.Serialization;

namespace Bench.Cli.Exporting;

/// <summary>Writes a table in the format asked for.</summary>
internal static class TableFile
{
    /// <summary>Whether a format is text, which a terminal or another program's input can take.</summary>
    public static bool IsText(ExportFormat format) => format is ExportFormat.Csv or ExportFormat.Json;

    /// <summary>Writes a table as text. The writer stays open.</summary>
    public static void Write(ExportTable table, ExportFormat format, TextWriter output)
    {
        if (format == ExportFormat.Json)
        {
            JsonRows.Write(table, output);
        }
        else
        {
            CsvText.Write(table, output);
        }
    }

    /// <summary>Writes a table as a file's content. The stream stays open.</summary>
    public static void Write(ExportTable table, ExportSubject subject, ExportFormat format, Stream output)
    {
        switch (format)
        {
            case ExportFormat.Parquet:
                ParquetRows.Write(table, BenchJson.Word(subject), output);
                break;
            case ExportFormat.Xlsx:
                SheetRows.Write(table, BenchJson.Word(subject), output);
                break;
            default:
                using (StreamWriter writer = new(output, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), leaveOpen: true))
                {
                    Write(table, format, writer);
                }

                break;
        }
    }
}
