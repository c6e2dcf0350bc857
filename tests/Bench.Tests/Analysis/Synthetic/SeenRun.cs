using Bench.Analysis.Extraction;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Model.Traces;

namespace Bench.Tests.Analysis.Synthetic;

/// <summary>A run as it was seen, and as it would have been seen by an observer who counts, measures or looks otherwise.</summary>
internal sealed record SeenRun(Profile Profile, BenchSnapshot Bench, Sample[] Samples, Move[] Moves)
{
    public static SeenRun Of(SyntheticUnit unit, Profile profile, BenchSnapshot bench) =>
        new(profile, bench, [.. unit.Trace.All], [.. unit.Moves]);

    /// <summary>The ring's zero lies elsewhere: every count is read as so many more.</summary>
    public SeenRun Turned(int counts) => Recounted(c => c + counts);

    /// <summary>Seen from the other side: counts fall where they rose.</summary>
    public SeenRun Mirrored()
    {
        SeenRun seen = Recounted(c => -(long)c);
        return seen with
        {
            Samples = [.. seen.Samples.Select(s => s with
            {
                Drive = s.Drive switch { DriveState.Up => DriveState.Down, DriveState.Down => DriveState.Up, _ => s.Drive },
            })],
            Moves = [.. seen.Moves.Select(m => m with
            {
                Direction = m.Direction == DriveDirection.Up ? DriveDirection.Down : DriveDirection.Up,
                TravelCounts = -m.TravelCounts,
                ExpectedCoastCounts = -m.ExpectedCoastCounts,
            })],
        };
    }

    /// <summary>Amperes in a unit <paramref name="by"/> times smaller: numbers are so many times greater, ohms so many times less.</summary>
    public SeenRun InSmallerAmperes(double by) => this with
    {
        Profile = Profile with
        {
            Electrical = Profile.Electrical with
            {
                NoLoadCurrentA = Profile.Electrical.NoLoadCurrentA * by,
                RunningCurrentA = Profile.Electrical.RunningCurrentA * by,
                StallCurrentA = Profile.Electrical.StallCurrentA * by,
                WindingOhm = Profile.Electrical.WindingOhm / by,
            },
        },
        Bench = Bench with
        {
            Current = Bench.Current with { Scale = Bench.Current.Scale * by, StandardUncertainty = Bench.Current.StandardUncertainty * by },
        },
        Samples = [.. Samples.Select(s => s with { CurrentA = s.CurrentA * by })],
    };

    /// <summary>The last move first.</summary>
    public SeenRun LastFirst() => this with
    {
        Moves = [.. Moves.Reverse().Select((m, i) => m with { Number = i + 1 })],
    };

    /// <summary>Extraction from the whole trace.</summary>
    public RunFeatures Whole()
    {
        Trace trace = new();
        foreach (Sample sample in Samples)
        {
            trace.Add(sample);
        }

        RunExtraction extraction = new(Profile, Bench);
        foreach (Move move in Moves)
        {
            extraction.AddMove(trace, move);
        }

        return extraction.Complete(trace, SyntheticRun.Links(), SyntheticRun.Today);
    }

    /// <summary>Extraction of the moves, each handed over alone with what lies between it and the one before.</summary>
    public RunFeatures InParts()
    {
        RunExtraction extraction = new(Profile, Bench);
        int done = 0;
        foreach (Move move in Moves)
        {
            int end = move.FirstSample + move.SampleCount;
            extraction.AddMove(Samples.AsSpan(Math.Min(done, move.FirstSample)..move.FirstSample), Samples.AsSpan(move.FirstSample..end), move with { FirstSample = 0 });
            done = end;
        }

        return extraction.Complete(Samples.AsSpan(done..), SyntheticRun.Links(), SyntheticRun.Today);
    }

    private SeenRun Recounted(Func<int, long> count)
    {
        int Place(int c) => Profile.Ring.Place(count(c));
        return this with
        {
            Profile = Profile with { Ports = [.. Profile.Ports.Select(p => p with { Count = Place(p.Count) })] },
            Samples = [.. Samples.Select(s => s.HasCount ? s with { Count = Place(s.Count) } : s)],
            Moves = [.. Moves.Select(m => m with { TargetCount = Place(m.TargetCount) })],
        };
    }
}
