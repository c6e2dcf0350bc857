namespace Bench.Cli.Exporting;

/// <summary>How an export is written.</summary>
internal enum ExportFormat
{
    /// <summary>Comma-separated values, RFC 4180.</summary>
    Csv,

    /// <summary>JSON, RFC 8259.</summary>
    Json,

    /// <summary>A workbook of one sheet, ECMA-376.</summary>
    Xlsx,

    /// <summary>Apache Parquet.</summary>
    Parquet,

    /// <summary>One run whole: a claim file.</summary>
    Zip,
}
