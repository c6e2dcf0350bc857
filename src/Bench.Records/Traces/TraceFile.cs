using System.Globalization;
using System.IO.Compression;
using Bench.Model.Instruments;
using Bench.Model.Traces;
using Parquet;
using Parquet.Schema;

namespace Bench.Records.Traces;

/// <summary>
/// A run's trace as an Apache Parquet file, one row per sample (docs/records.md). What was not read is null, so that no
/// reader meets a NaN or a count of -1.
/// </summary>
public static class TraceFile
{
    /// <summary>Version of columns and codes; in the file's metadata.</summary>
    public const string SchemaVersion = "1";

    private const string VersionKey = "bench.schema_version";

    private static readonly DataField<double> Time = new("time_s");
    private static readonly DataField<byte> Drive = new("drive");
    private static readonly DataField<byte> Feedback = new("feedback");
    private static readonly DataField<int?> Count = new("count");
    private static readonly DataField<double?> Current = new("current_a");
    private static readonly DataField<double?> Voltage = new("voltage_v");
    private static readonly DataField<byte> Index = new("index");
    private static readonly ParquetSchema Schema = new(Time, Drive, Feedback, Count, Current, Voltage, Index);

    /// <summary>Samples to a row group: bounds what of a long trace is held twice while it is written.</summary>
    private const int RowsPerGroup = 1 << 20;

    /// <summary>The file's bytes; the same trace always gives the same bytes.</summary>
    /// <exception cref="ArgumentException">A time is not finite, or a current or voltage is infinite.</exception>
    public static byte[] Encode(Guid run, Trace trace) => Encode(run, trace, RowsPerGroup);

    /// <summary>The same with row groups of another size.</summary>
    internal static byte[] Encode(Guid run, Trace trace, int rowsPerGroup)
    {
        ArgumentNullException.ThrowIfNull(trace);
        foreach (ref readonly Sample sample in trace.All)
        {
            SampleRule.Check(sample);
        }

        // Off the caller's scheduler: virtual time has one thread, and it waits here.
        return Task.Run(() => EncodeAsync(run, trace, rowsPerGroup)).GetAwaiter().GetResult();
    }

    /// <summary>The trace in a file.</summary>
    /// <exception cref="FormatException">The bytes are no trace of this format.</exception>
    public static Trace Decode(byte[] file)
    {
        try
        {
            return Task.Run(() => DecodeAsync(file)).GetAwaiter().GetResult();
        }
        catch (Exception e) when (e is ParquetException or IOException or InvalidOperationException or ArgumentException)
        {
            throw new FormatException($"this is not a trace file ({e.Message})", e);
        }
    }

    private static async Task<byte[]> EncodeAsync(Guid run, Trace trace, int rowsPerGroup)
    {
        using MemoryStream stream = new();
        ParquetOptions options = new() { CompressionMethod = CompressionMethod.Zstd, CompressionLevel = CompressionLevel.Optimal };
        await using (ParquetWriter writer = await ParquetWriter.CreateAsync(Schema, stream, options))
        {
            writer.CustomMetadata = Metadata(run);
            for (int first = 0; first == 0 || first < trace.Count; first += rowsPerGroup)
            {
                await WriteGroupAsync(writer, trace, first, Math.Min(rowsPerGroup, trace.Count - first));
            }
        }

        return stream.ToArray();
    }

    private static async Task WriteGroupAsync(ParquetWriter writer, Trace trace, int first, int count)
    {
        using ParquetRowGroupWriter rows = writer.CreateRowGroup();
        await rows.WriteAsync<double>(Time, Column(s => s.TimeS));
        await rows.WriteAsync<byte>(Drive, Column(s => (byte)s.Drive));
        await rows.WriteAsync<byte>(Feedback, Column(s => (byte)s.Feedback));
        await rows.WriteAsync<int>(Count, Column(s => s.Count == NoCount ? (int?)null : s.Count));
        await rows.WriteAsync<double>(Current, Column(s => OrNull(s.CurrentA)));
        await rows.WriteAsync<double>(Voltage, Column(s => OrNull(s.VoltageV)));
        await rows.WriteAsync<byte>(Index, Column(s => (byte)s.Index));
        rows.CompleteValidate();

        T[] Column<T>(Func<Sample, T> of)
        {
            T[] column = new T[count];
            for (int i = 0; i < column.Length; i++)
            {
                column[i] = of(trace[first + i]);
            }

            return column;
        }
    }

    private static async Task<Trace> DecodeAsync(byte[] file)
    {
        using MemoryStream stream = new(file, writable: false);
        await using ParquetReader reader = await ParquetReader.CreateAsync(stream);
        string? version = reader.CustomMetadata.GetValueOrDefault(VersionKey);
        if (version != SchemaVersion)
        {
            throw new FormatException($"a trace file of version '{version ?? "none"}'; this program knows version {SchemaVersion}");
        }

        Trace trace = new();
        for (int group = 0; group < reader.RowGroupCount; group++)
        {
            using ParquetRowGroupReader rows = reader.OpenRowGroupReader(group);
            int n = checked((int)rows.RowCount);
            double[] time = new double[n];
            byte[] drive = new byte[n], feedback = new byte[n], index = new byte[n];
            int?[] count = new int?[n];
            double?[] current = new double?[n], voltage = new double?[n];
            await rows.ReadAsync<double>(Time, time);
            await rows.ReadAsync<byte>(Drive, drive);
            await rows.ReadAsync<byte>(Feedback, feedback);
            await rows.ReadAsync<int>(Count, count);
            await rows.ReadAsync<double>(Current, current);
            await rows.ReadAsync<double>(Voltage, voltage);
            await rows.ReadAsync<byte>(Index, index);
            for (int i = 0; i < n; i++)
            {
                trace.Add(new Sample(
                    time[i], (DriveState)drive[i], (FeedbackStatus)feedback[i], count[i] ?? NoCount,
                    current[i] ?? double.NaN, voltage[i] ?? double.NaN, (IndexState)index[i]));
            }
        }

        return trace;
    }

    /// <summary>What <see cref="Sample.Count"/> holds when no count was read.</summary>
    private const int NoCount = -1;

    private static double? OrNull(double value) => double.IsNaN(value) ? null : value;

    private static Dictionary<string, string> Metadata(Guid run) => new(StringComparer.Ordinal)
    {
        [VersionKey] = SchemaVersion,
        ["bench.run_id"] = run.ToString("D", CultureInfo.InvariantCulture),
        ["bench.units"] = "time_s: seconds since the run began; count: counts; current_a: amperes; voltage_v: volts",
        ["bench.drive"] = Codes<DriveState>(),
        ["bench.feedback"] = Codes<FeedbackStatus>(),
        ["bench.index"] = Codes<IndexState>(),
    };

    private static string Codes<T>()
        where T : struct, Enum =>
        string.Join(", ", Enum.GetValues<T>().Select(v => $"{Convert.ToInt32(v, CultureInfo.InvariantCulture)} {Model.Serialization.BenchJson.Word(v)}"));
}
