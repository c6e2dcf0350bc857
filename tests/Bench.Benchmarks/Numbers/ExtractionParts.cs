using System.Diagnostics;
using Bench.Analysis.Currents;
using Bench.Analysis.Extraction;
using Bench.Analysis.Motion;
using Bench.Analysis.Readings;
using Bench.Analysis.ShaftIndex;
using Bench.Analysis.Sightings;
using Bench.Analysis.Statistics;
using Bench.Model.Moves;
using Bench.Model.Runs;
using Bench.Model.Traces;

namespace Bench.Benchmarks.Numbers;

/// <summary>Where the time of extraction goes: its parts one by one, nanoseconds for each sample of the trace.</summary>
internal static class ExtractionParts
{
    /// <summary>Measures on a few moves and writes a line.</summary>
    public static void Write(Recording recording, BenchSnapshot bench)
    {
        List<Move> moves = recording.Moves[..Math.Min(20, recording.Moves.Count)];
        double samples = moves.Sum(m => m.SampleCount);
        MoveReadings[] taken = [.. moves.Select(_ => new MoveReadings())];
        MoveCourse[] courses = [];
        void Fill(int i)
        {
            taken[i].Begin(moves[i].SampleCount, moves[i].DriveOnS, moves[i].DriveOffS, counts: true);
            taken[i].Add(Slice(recording, moves[i]));
        }

        List<string> parts = [];
        RunSamples all = new(switches: false);
        ReadingIntervals intervals = new();
        void Part(string name, Action<int> part)
        {
            double least = double.PositiveInfinity;
            for (int round = 0; round < 5; round++)
            {
                (all, intervals) = (new RunSamples(switches: false), new ReadingIntervals());
                long begin = Stopwatch.GetTimestamp();
                for (int i = 0; i < moves.Count; i++)
                {
                    part(i);
                }

                least = Math.Min(least, Stopwatch.GetElapsedTime(begin).TotalNanoseconds);
            }

            parts.Add(FormattableString.Invariant($"{name} {least / samples:0.0}"));
        }

        RingSightings ring = new(recording.Profile.Ring);
        AngleCurrents angles = new(recording.Profile.Ring, recording.Profile.Ports[0].Count);
        Part("columns", Fill);
        Part("unwrap", i => _ = new MoveCourse(taken[i], moves[i], recording.Profile));
        courses = [.. moves.Select((m, i) => new MoveCourse(taken[i], m, recording.Profile))];
        Part("rest and lost", i => all.Add(Slice(recording, moves[i]), 0));
        Part("intervals", i => intervals.Add(taken[i], Slice(recording, moves[i]), moves[i].DriveOnS, moves[i].DriveOffS));
        ReadingIntervals filled = new();
        moves.ForEach(m => filled.Add(Slice(recording, m), m.DriveOnS, m.DriveOffS));
        Part("ranks of intervals", i => _ = i == 0 ? filled.Times(null) : null);
        Part("index passes", i => IndexPass.In(courses[i], taken[i].Meters));
        Part("jump", i => CountJump.Greatest(courses[i]));
        Part("sightings", i => ring.Add(courses[i]));
        Part("angles", i => angles.Add(courses[i], taken[i].Meters.Between(courses[i].SteadyFromS, courses[i].SteadyToS)));
        Part("medians", i => _ = Robust.Median(taken[i].Meters.Currents) + Robust.Median(taken[i].Meters.Voltages));
        Part("deviation", i => Robust.Deviation(taken[i].Meters.Currents));
        Part("gaps", i => CurrentGaps.In(courses[i], taken[i].Meters, 0.025, moves[i].DriveOffS));
        RunExtraction extraction = new(recording.Profile, bench);
        Part("all of a move", i => extraction.AddMove(recording.Trace, moves[i]));
        RunExtraction whole = new(recording.Profile, bench);
        moves.ForEach(m => whole.AddMove(recording.Trace, m));
        Part("end of the run", i => _ = i == 0 ? whole.Complete(recording.Trace, [], new DateOnly(2026, 1, 1)) : null);
        Console.WriteLine($"  ns a sample: {string.Join(", ", parts)}");
    }

    private static ReadOnlySpan<Sample> Slice(Recording recording, Move move) => recording.Trace.Slice(move.FirstSample, move.SampleCount);
}
