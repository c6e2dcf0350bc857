using System.Diagnostics;
using System.Globalization;
using Bench.Records;
using Bench.Records.Database;
using Bench.Records.Integrity;
using Bench.Records.Runs;
using Bench.Simulation.Chance;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Campaigns.Archive;

/// <summary>
/// Seals casts of the runs that a data folder holds until there are as many as asked for, as <see cref="RunRow"/>s in one
/// chain. Every record has its full size; casts share the trace file of the run they were cast from.
/// </summary>
internal static class ArchiveFill
{
    /// <summary>Rows in a transaction: a few tens of megabytes of write-ahead log.</summary>
    private const int Batch = 400;

    /// <summary>Between two runs: 100,000 runs are then 5.7 years.</summary>
    private static readonly TimeSpan Step = TimeSpan.FromMinutes(30);

    private static readonly DateTimeOffset Begin = new(2020, 6, 1, 6, 0, 0, TimeSpan.Zero);

    /// <summary>Fills it.</summary>
    /// <returns>What was done.</returns>
    public static string To(string folder, int runs)
    {
        long began = Stopwatch.GetTimestamp();
        string path = Path.Combine(folder, RecordStore.DatabaseName);
        using StoreDatabase database = StoreDatabase.Open(path, Durability.Relaxed);
        RecordMould[] moulds = [.. database.Read("read the real runs", c => c.Query<(string Record, string? File, string? Sha256)>(
            "SELECT record, trace_file, trace_sha256 FROM run ORDER BY sequence").Select(r => new RecordMould(r.Record, r.File, r.Sha256)))];
        SeededRandom random = new(1);
        int made = moulds.Length;
        while (made < runs)
        {
            int from = made;
            made = Math.Min(runs, made + Batch);
            database.Write("fill the archive", connection => Seal(connection, moulds, random, from, made));
            database.Tidy();
        }

        double seconds = Stopwatch.GetElapsedTime(began).TotalSeconds;
        return string.Create(CultureInfo.InvariantCulture, $"{runs - moulds.Length} runs cast from {moulds.Length} in {seconds:F0} s; {new FileInfo(path).Length / 1e9:F2} GB in {RecordStore.DatabaseName}");
    }

    private static void Seal(SqliteConnection connection, RecordMould[] moulds, SeededRandom random, int from, int to)
    {
        string previous = connection.ExecuteScalar<string>("SELECT hash FROM run ORDER BY sequence DESC LIMIT 1")!;
        for (int n = from; n < to; n++)
        {
            // Six serial numbers for ten runs, so that units come back.
            RecordMould mould = moulds[random.Whole(0, moulds.Length - 1)];
            DateTimeOffset startedAt = Begin + (n * Step);
            string serial = mould.SerialStart + random.Whole(100_000, 160_000).ToString(CultureInfo.InvariantCulture);
            (RunColumns columns, string text) = mould.Cast(Id(startedAt, random), serial, startedAt);
            string hash = Fingerprint.OfLink(text, mould.TraceSha256, previous);
            new RunRow(columns, text, mould.TraceFile, mould.TraceSha256, previous, hash).Insert(connection);
            previous = hash;
        }
    }

    /// <summary>A UUIDv7 (RFC 9562, section 5.7) whose random bits are drawn.</summary>
    private static Guid Id(DateTimeOffset at, SeededRandom random)
    {
        ulong high = (unchecked((ulong)at.ToUnixTimeMilliseconds()) << 16) | 0x7000 | (random.NextBits() & 0xFFF);
        ulong low = (random.NextBits() >> 2) | 0x8000_0000_0000_0000;
        return new Guid(new UInt128(high, low).ToString("x32", CultureInfo.InvariantCulture));
    }
}
