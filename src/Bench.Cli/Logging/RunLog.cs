using System.Globalization;
using Serilog;
using Serilog.Core;
using Serilog.Formatting.Compact;

namespace Bench.Cli.Logging;

/// <summary>Structured log: one JSON object a line, rolling daily in the data folder; nothing goes to the terminal.</summary>
internal static class RunLog
{
    private const long MostBytes = 32L << 20;
    private const int MostFiles = 30;

    /// <summary>Opens the log of a data folder. Dispose to flush.</summary>
    public static Logger Open(string dataFolder) =>
        new LoggerConfiguration()
            .MinimumLevel.Debug()
            .WriteTo.File(
                new CompactJsonFormatter(),
                Path.Combine(dataFolder, "logs", "bench-.jsonl"),
                rollingInterval: RollingInterval.Day,
                fileSizeLimitBytes: MostBytes,
                rollOnFileSizeLimit: true,
                retainedFileCountLimit: MostFiles,
                shared: true)
            .Enrich.WithProperty("Process", Environment.ProcessId.ToString(CultureInfo.InvariantCulture))
            .CreateLogger();
}
