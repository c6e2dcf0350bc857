using System.Diagnostics;
using System.Globalization;
using Bench.Campaigns.Crash;
using Bench.Model.Instruments;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Records;
using Bench.Records.Journals;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Campaigns.Sustained;

/// <summary>Records four channels (count, current, voltage, index) at 10,000 samples a second through the real journal, flushed to the disk.</summary>
internal static class RecordCommand
{
    private const double RateHz = 10_000;
    private const double MostLagMs = 250;
    private const double MostMb = 200;
    private const double MostGrowthMb = 20;

    /// <summary>Records and tells.</summary>
    /// <param name="seconds">How long.</param>
    /// <returns>0 when lag and memory stayed within their targets and every sample is there.</returns>
    public static int Run(int seconds)
    {
        using Folders folders = new();
        string folder = folders.New();
        LagWatch watch = new();
        int samples;
        double tookS, cpuS, mostHandingMs;
        using (RecordStore store = RecordStore.Open(folder, TimeProvider.System))
        using (RunJournal journal = (RunJournal)store.Begin(new MadeRun(1).Start(DateTimeOffset.UtcNow)))
        {
            TimeSpan cpu = Process.GetCurrentProcess().TotalProcessorTime;
            long began = Stopwatch.GetTimestamp();
            using CancellationTokenSource stop = new();
            int taken = 0;
            Thread watcher = new(() => watch.Watch(journal, () => Volatile.Read(ref taken), RateHz, began, stop.Token));
            watcher.Start();
            mostHandingMs = Take(journal, seconds, began, ref taken);
            journal.Write(new RunEvent(seconds, RunEventKind.Note, "end"));
            stop.Cancel();
            watcher.Join();
            samples = taken;
            tookS = Stopwatch.GetElapsedTime(began).TotalSeconds;
            cpuS = (Process.GetCurrentProcess().TotalProcessorTime - cpu).TotalSeconds;
        }

        long bytes = new DirectoryInfo(folder).EnumerateFiles("bench.db*").Sum(f => f.Length);
        int lost = samples - There(folder);
        double growthMb = watch.MemoryGrowthMb;
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{samples} samples of 4 channels in {tookS:0.0} s; durable lag median {watch.QuantileMs(0.5):0} ms, 99 % {watch.QuantileMs(0.99):0} ms; handing over took at most {mostHandingMs:0.0} ms; "
            + $"processor {100 * cpuS / tookS:0} % of a core; {(double)bytes / samples:0} bytes a sample on the disk; working set at most {watch.MemoryMostMb:0} MB, by quarter {string.Join(", ", watch.MemoryByQuarter.Select(m => m.ToString("0", CultureInfo.InvariantCulture)))}, managed {GC.GetTotalMemory(forceFullCollection: true) / 1e6:0} MB"));
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"RESULT lag_ms={watch.MostMs:0} memory_mb={watch.MemoryMostMb:0} growth_mb={growthMb:0.0} samples_s={samples / tookS:0} lost={lost}"));
        return watch.MostMs > MostLagMs || growthMb > MostGrowthMb || watch.MemoryMostMb > MostMb || lost != 0 || samples / tookS < 0.999 * RateHz ? 1 : 0;
    }

    /// <summary>Takes samples as they fall due, a millisecond's at a time or what has fallen due since.</summary>
    /// <returns>The longest that the journal kept whoever handed samples over, milliseconds.</returns>
    private static double Take(RunJournal journal, int seconds, long began, ref int taken)
    {
        double mostMs = 0;
        int all = (int)(seconds * RateHz);
        Sample[] burst = new Sample[256];
        while (taken < all)
        {
            int due = Math.Min(all, (int)(Stopwatch.GetElapsedTime(began).TotalSeconds * RateHz));
            int count = Math.Min(due - taken, burst.Length);
            if (count <= 0)
            {
                Thread.Sleep(1);
                continue;
            }

            for (int i = 0; i < count; i++)
            {
                burst[i] = Sample(taken + i);
            }

            long handing = Stopwatch.GetTimestamp();
            journal.Write(taken, burst.AsSpan(0, count));
            mostMs = Math.Max(mostMs, Stopwatch.GetElapsedTime(handing).TotalMilliseconds);
            Volatile.Write(ref taken, taken + count);
        }

        return mostMs;
    }

    private static Sample Sample(int i) => new(
        i / RateHz, DriveState.Up, FeedbackStatus.Ok, i % 800, 0.2 + (0.01 * Math.Sin(i)), 24 + (0.01 * Math.Cos(i)), i % 800 < 20 ? IndexState.Closed : IndexState.Open);

    /// <summary>How many samples are in the journal, from the first on and as they were taken.</summary>
    private static int There(string folder)
    {
        using SqliteConnection connection = new($"Data Source={Path.Combine(folder, RecordStore.DatabaseName)};Pooling=False");
        int there = 0;
        foreach (byte[] chunk in connection.Query<byte[]>("SELECT data FROM journal_chunk ORDER BY first", buffered: false))
        {
            Bench.Model.Traces.Trace trace = new();
            SampleChunk.Decode(chunk, trace);
            foreach (Sample sample in trace.All)
            {
                if (sample != Sample(there))
                {
                    return there;
                }

                there++;
            }
        }

        return there;
    }
}
