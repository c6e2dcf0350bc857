using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Bench.Analysis.Currents;
using Bench.Analysis.Extraction;
using Bench.Analysis.Judging;
using Bench.Analysis.Motion;
using Bench.Analysis.Sightings;
using Bench.Analysis.Statistics;
using Bench.Analysis.Trends;
using Bench.Model.BenchFiles;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Traces;

namespace Bench.Benchmarks.Numbers;

/// <summary>Speed of feature extraction, and of its steps against NumPy and SciPy on the same data in the same run.</summary>
internal static class NumbersCampaign
{
    private const int Rounds = 7;

    /// <summary>Greatest share of NumPy's or SciPy's time that any step may take.</summary>
    private const double MostRatio = 1.0 / 3;

    private const double MostJudgeUs = 100;

    /// <summary>A step is repeated at least so long: code is compiled for speed only once it has run for a while.</summary>
    private static readonly TimeSpan LeastTime = TimeSpan.FromSeconds(0.5);

    /// <summary>The same for a whole extraction, of which compiling takes the first second.</summary>
    private static readonly TimeSpan LeastWholeTime = TimeSpan.FromSeconds(4);

    /// <summary>
    /// All is measured so often, by turns with the other program: a machine that others share has quick and slow spells of
    /// some tens of seconds, and each is held to its best.
    /// </summary>
    private const int Turns = 2;

    /// <summary>Measures; needs a python3 with SciPy.</summary>
    public static int Run(string python)
    {
        Recording recording = Recording.Polled(300), stream = Recording.Streamed(100);
        RunFeatures features = Extract(recording);
        double polled = 0, rate = 0, judge = double.PositiveInfinity;
        Dictionary<string, double> ours = [], theirs = [];
        string folder = Directory.CreateTempSubdirectory("bench-numbers-").FullName;
        try
        {
            for (int turn = 0; turn < Turns; turn++)
            {
                polled = Math.Max(polled, Whole("polled, 136 positions and 45 meter readings a second", recording));
                Best(() => Judge.Decide(features, recording.Profile, Symptom.Constant)); // compiled for speed while the next line works
                rate = Math.Max(rate, Whole("streamed, 1000 positions and 5000 meter readings a second", stream));
                judge = Math.Min(judge, 1e3 * Best(() => Judge.Decide(features, recording.Profile, Symptom.Constant)));
                Keep(ours, Steps(recording, folder));
                Keep(theirs, Theirs(python, folder));
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }

        Console.WriteLine(Text($"judging a run from its features: {judge:0.0} microseconds"));
        if (ours.Keys.Except(theirs.Keys).ToArray() is { Length: > 0 } missing)
        {
            Console.Error.WriteLine($"the other program gave no time for {string.Join(", ", missing)}; see what it said above");
            return 1;
        }

        double worst = 0;
        foreach ((string step, double own) in ours)
        {
            double ratio = own / theirs[step];
            worst = Math.Max(worst, ratio);
            Console.WriteLine(Text($"{step,-20} {own,9:0.000} ms  {theirs[step],9:0.000} ms  ratio {ratio:0.00}"));
        }

        Console.WriteLine(Text($"RESULT msamples_s={rate:0.00} polled_msamples_s={polled:0.00} worst_ratio={worst:0.00} judge_us={judge:0.0}"));
        bool met = worst is > 0 and <= MostRatio && judge <= MostJudgeUs;
        if (!met)
        {
            Console.Error.WriteLine(Text($"missed: a step may take at most {MostRatio:0.00} of the peer's time, and judging {MostJudgeUs} microseconds"));
        }

        return met ? 0 : 1;
    }

    private static void Keep(Dictionary<string, double> best, Dictionary<string, double> measured)
    {
        foreach ((string step, double ms) in measured)
        {
            best[step] = Math.Min(ms, best.GetValueOrDefault(step, double.PositiveInfinity));
        }
    }

    // Million samples a second of the whole: every move added, then the run's features.
    private static double Whole(string name, Recording recording)
    {
        double ms = double.PositiveInfinity;
        long first = Stopwatch.GetTimestamp();
        for (int i = 0; i < Rounds || Stopwatch.GetElapsedTime(first) < LeastWholeTime; i++)
        {
            // Processor time of all threads: others share the machine.
            TimeSpan begin = Environment.CpuUsage.TotalTime;
            Extract(recording);
            ms = Math.Min(ms, (Environment.CpuUsage.TotalTime - begin).TotalMilliseconds);
        }

        ExtractionParts.Write(recording, Snapshot());
        long before = GC.GetAllocatedBytesForCurrentThread();
        Extract(recording);
        double bytes = (GC.GetAllocatedBytesForCurrentThread() - before) / (double)recording.Trace.Count;
        double rate = recording.Trace.Count / ms / 1e3;
        Console.WriteLine(Text($"whole extraction, {name}: {recording.Trace.Count} samples, {recording.Moves.Count} moves, {ms:0.0} ms, {rate:0.00} million samples a second, {bytes:0.0} bytes allocated a sample"));
        Console.WriteLine(Text($"  of that to read the samples once and do nothing else: {1e6 * Best(() => Read(recording)) / recording.Trace.Count:0.0} ns of {1e3 / rate:0.0} ns a sample"));
        return rate;
    }

    // Every byte of the trace once: no extraction can be faster than memory.
    private static long Read(Recording recording)
    {
        Vector256<long> sum = Vector256<long>.Zero;
        foreach (ref readonly Vector256<long> part in MemoryMarshal.Cast<Sample, Vector256<long>>(recording.Trace.All))
        {
            sum ^= part;
        }

        return Vector256.Sum(sum);
    }

    private static RunFeatures Extract(Recording recording)
    {
        RunExtraction extraction = new(recording.Profile, Snapshot());
        foreach (Move move in recording.Moves)
        {
            extraction.AddMove(recording.Trace, move);
        }

        return extraction.Complete(recording.Trace, [], new DateOnly(2026, 1, 1));
    }

    // Each step alone, and the arrays it works on for the other program.
    private static Dictionary<string, double> Steps(Recording recording, string folder)
    {
        MoveReadings[] moves = [.. recording.Moves.Select(m => Taken(recording, m))];
        MoveCourse[] courses = [.. moves.Select((r, i) => new MoveCourse(r, recording.Moves[i], recording.Profile))];
        double[] room = new double[moves.Max(m => m.Times.Length)];
        double[] pt = [.. moves.SelectMany(m => m.Times.ToArray())], pu = [.. courses.SelectMany(c => c.Counts.ToArray())];
        double[] mt = [.. courses.SelectMany((c, i) => Steady(moves[i], c).Times.ToArray())];
        double[] mc = [.. courses.SelectMany((c, i) => Steady(moves[i], c).Currents.ToArray())];
        double[] few = pt[..2000], y = [.. pu.Take(2000).Zip(mc, (a, b) => a + b)];
        Write(folder, "pt", pt);
        Write(folder, "pc", [.. pu.Select(c => (double)recording.Profile.Ring.Place((long)c))]);
        Write(folder, "mt", mt);
        Write(folder, "mc", mc);
        return new Dictionary<string, double>
        {
            ["unwrap-and-segment"] = Best(() =>
            {
                for (int i = 0; i < moves.Length; i++)
                {
                    _ = new MoveCourse(moves[i], recording.Moves[i], recording.Profile, room);
                }
            }),
            ["median"] = Best(() => Robust.Median(mc)),
            ["mean-and-deviation"] = Best(() => Describe.MeanAndDeviation(mc)),
            ["straight-line"] = Best(() => StraightLine.LeastSquares(pt, pu)),
            ["sightings"] = Best(() =>
            {
                RingSightings ring = new(recording.Profile.Ring);
                Array.ForEach(courses, ring.Add);
            }),
            ["means-by-angle"] = Best(() =>
            {
                AngleCurrents angles = new(recording.Profile.Ring, recording.Profile.Ports[0].Count);
                for (int i = 0; i < courses.Length; i++)
                {
                    angles.Add(courses[i], Steady(moves[i], courses[i]));
                }
            }),
            ["theil-sen-2000"] = Best(() => TheilSen.Of(few, y)),
            ["kendall-2000"] = Best(() => MannKendall.Of(y)),
        };
    }

    private static MoveReadings Taken(Recording recording, Move move)
    {
        MoveReadings readings = new();
        readings.Begin(move.SampleCount, move.DriveOnS, move.DriveOffS, counts: true);
        readings.Add(recording.Trace.Slice(move.FirstSample, move.SampleCount));
        return readings;
    }

    private static MeterRows Steady(MoveReadings readings, MoveCourse course) => readings.Meters.Between(course.SteadyFromS, course.SteadyToS);

    private static double Best(Action action)
    {
        double least = double.PositiveInfinity;
        long first = Stopwatch.GetTimestamp();
        for (int i = 0; i < Rounds || Stopwatch.GetElapsedTime(first) < LeastTime; i++)
        {
            long begin = Stopwatch.GetTimestamp();
            action();
            least = Math.Min(least, Stopwatch.GetElapsedTime(begin).TotalMilliseconds);
        }

        return least;
    }

    private static double Best<T>(Func<T> function)
    {
        T? kept = default;
        double least = Best(() => { kept = function(); });
        GC.KeepAlive(kept);
        return least;
    }

    // A step a line, with its milliseconds; what else is said is passed on.
    private static Dictionary<string, double> Theirs(string python, string folder)
    {
        ProcessStartInfo start = new(python, [Path.Combine(AppContext.BaseDirectory, "Numbers", "steps.py"), folder]) { RedirectStandardOutput = true };
        using Process process = Process.Start(start)!;
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Dictionary<string, double> steps = [];
        foreach (string line in output.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.Split(' ') is [var step, var ms] && double.TryParse(ms, CultureInfo.InvariantCulture, out double time))
            {
                steps[step] = time;
            }
            else
            {
                Console.WriteLine(line);
            }
        }

        return steps;
    }

    private static void Write(string folder, string name, double[] values)
    {
        byte[] bytes = new byte[values.Length * sizeof(double)];
        Buffer.BlockCopy(values, 0, bytes, 0, bytes.Length);
        File.WriteAllBytes(Path.Combine(folder, name), bytes);
    }

    private static BenchSnapshot Snapshot()
    {
        MeterDescription meter = new()
        {
            Channel = new Channel("board", RegisterTable.InputRegister, 0),
            Scale = 0.0005,
            StandardUncertainty = 0.002,
            CalibratedOn = new DateOnly(2026, 1, 1),
            CalibrationDueOn = new DateOnly(2027, 1, 1),
            Certificate = "none",
        };
        return new BenchSnapshot
        {
            Name = "bench",
            Position = "left",
            SupplyCurrentLimitA = 3,
            Current = meter,
            Voltage = meter,
            HasIndex = true,
            HasEmergencyStop = true,
            Sha256 = "",
        };
    }

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
