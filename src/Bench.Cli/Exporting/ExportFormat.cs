namespace Bench.Cli.Exporting;

/// <summary>How an export is written.</summary>
internal enum ExportFormat
{
    /// <summary>Comma-separated values, RFC 4180.</summary>
    Csv,

    /// <summary>JSON, RFC 8259.</summary>
    Json,

    /// <summary>One run whole: a claim file.</summary>
    Zip,
}
