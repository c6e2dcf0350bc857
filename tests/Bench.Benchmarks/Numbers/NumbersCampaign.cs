using System.Diagnostics;
using System.Globalization;
using Bench.Analysis.Currents;
using Bench.Analysis.Extraction;
using Bench.Analysis.Motion;
using Bench.Analysis.Sightings;
using Bench.Analysis.Statistics;
using Bench.Analysis.Trends;
using Bench.Model.BenchFiles;
using Bench.Model.Moves;
using Bench.Model.Runs;

namespace Bench.Benchmarks.Numbers;

/// <summary>Speed of feature extraction, and of its steps against NumPy and SciPy on the same data in the same run.</summary>
internal static class NumbersCampaign
{
    private const int Rounds = 7;

    /// <summary>Measures; needs a python3 with SciPy.</summary>
    public static int Run(string python)
    {
        Recording recording = new(300);
        double whole = Best(() => Extract(recording));
        double rate = recording.Trace.Count / whole / 1e3;
        Console.WriteLine(Text($"whole extraction: {recording.Trace.Count} samples, {recording.Moves.Count} moves, {whole:0.0} ms, {rate:0.00} million samples a second"));

        Dictionary<string, double> ours = Steps(recording, out string folder);
        try
        {
            double worst = 0;
            foreach (string line in Theirs(python, folder))
            {
                string[] parts = line.Split(' ');
                if (!ours.TryGetValue(parts[0], out double own))
                {
                    Console.WriteLine(line);
                    continue;
                }

                double theirs = double.Parse(parts[1], CultureInfo.InvariantCulture);
                worst = Math.Max(worst, own / theirs);
                Console.WriteLine(Text($"{parts[0],-20} {own,9:0.000} ms  {theirs,9:0.000} ms  ratio {own / theirs:0.00}"));
            }

            Console.WriteLine(Text($"RESULT msamples_s={rate:0.00} worst_ratio={worst:0.00}"));
            return worst > 0 ? 0 : 1;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static void Extract(Recording recording)
    {
        RunExtraction extraction = new(recording.Profile, Snapshot());
        foreach (Move move in recording.Moves)
        {
            extraction.AddMove(recording.Trace, move);
        }

        extraction.Complete(recording.Trace, [], new DateOnly(2026, 1, 1));
    }

    // Each step alone, and the arrays it works on for the other program.
    private static Dictionary<string, double> Steps(Recording recording, out string folder)
    {
        MoveCourse[] Courses() => [.. recording.Moves.Select(m => new MoveCourse(recording.Trace.Slice(m.FirstSample, m.SampleCount), m, recording.Profile))];
        MoveCourse[] courses = Courses();
        MeterRow[][] rows = [.. recording.Moves.Select((m, i) =>
            MeterRow.Between(MeterRow.Of(recording.Trace.Slice(m.FirstSample, m.SampleCount)), courses[i].SteadyFromS, courses[i].SteadyToS).ToArray())];
        double[] pt = [.. courses.SelectMany(c => c.Times)], pu = [.. courses.SelectMany(c => c.Counts).Select(c => (double)c)];
        MeterRow[] meters = [.. rows.SelectMany(r => r)];
        double[] mc = MeterRow.Currents(meters);
        double[] few = pt[..2000], y = [.. pu.Take(2000).Zip(mc, (a, b) => a + b)];
        folder = Directory.CreateTempSubdirectory("bench-numbers-").FullName;
        Write(folder, "pt", pt);
        Write(folder, "pc", [.. pu.Select(c => (double)recording.Profile.Ring.Place((long)c))]);
        Write(folder, "mt", [.. meters.Select(m => m.TimeS)]);
        Write(folder, "mc", mc);
        return new Dictionary<string, double>
        {
            ["unwrap-and-segment"] = Best(() => Courses()),
            ["median"] = Best(() => Robust.Median(mc)),
            ["mean-and-deviation"] = Best(() => (Describe.Mean(mc), Describe.StandardDeviation(mc))),
            ["straight-line"] = Best(() => StraightLine.LeastSquares(pt, pu)),
            ["sightings"] = Best(() =>
            {
                RingSightings ring = new(recording.Profile.Ring);
                Array.ForEach(courses, ring.Add);
            }),
            ["means-by-angle"] = Best(() =>
            {
                AngleCurrents angles = new(recording.Profile.Ring);
                for (int i = 0; i < courses.Length; i++)
                {
                    angles.Add(courses[i], rows[i]);
                }
            }),
            ["theil-sen-2000"] = Best(() => TheilSen.Of(few, y)),
            ["kendall-2000"] = Best(() => MannKendall.Of(y)),
        };
    }

    private static double Best(Action action)
    {
        double least = double.PositiveInfinity;
        for (int i = 0; i < Rounds; i++)
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

    private static string[] Theirs(string python, string folder)
    {
        ProcessStartInfo start = new(python, [Path.Combine(AppContext.BaseDirectory, "Numbers", "steps.py"), folder]) { RedirectStandardOutput = true };
        using Process process = Process.Start(start)!;
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
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
