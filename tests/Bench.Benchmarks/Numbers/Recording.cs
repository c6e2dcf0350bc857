using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Traces;

namespace Bench.Benchmarks.Numbers;

/// <summary>A long made-up run at the rates of a bench: positions 136 times a second, meters 45, moves of four revolutions.</summary>
internal sealed class Recording
{
    private const double SpeedCountsPerS = 263;
    private const double MoveS = 12.2;
    private const double RestS = 0.5;
    private readonly Random _random = new(1);

    /// <summary>The profile, that of the diverter.</summary>
    public Profile Profile { get; } = ProfileReader.Read(
        File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "nutrient-diverter-4.toml")), "nutrient-diverter-4.toml");

    /// <summary>The trace.</summary>
    public Trace Trace { get; } = new();

    /// <summary>Its moves.</summary>
    public List<Move> Moves { get; } = [];

    /// <summary>A run of so many moves.</summary>
    public Recording(int moves)
    {
        double time = 0;
        double position = 0;
        for (int m = 0; m < moves; m++)
        {
            int first = Trace.Count;
            double on = time + 0.05;
            double begin = position;
            for (double next = time; time < on + MoveS + RestS; time += 0.0055 + (0.0007 * _random.NextDouble()), next = time)
            {
                bool driven = time >= on && time < on + MoveS;
                position = begin + (SpeedCountsPerS * Math.Clamp(time - on, 0, MoveS));
                DriveState drive = driven ? DriveState.Up : DriveState.Off;
                Trace.Add(new Sample(time, drive, FeedbackStatus.Ok, Profile.Ring.Place((long)position), double.NaN, double.NaN, IndexState.NotSampled));
                if (Trace.Count % 4 == 3)
                {
                    time += 0.005;
                    IndexState index = Math.Abs(Profile.Ring.Difference(Profile.Ring.Place(position), 100)) < 10 ? IndexState.Closed : IndexState.Open;
                    Trace.Add(new Sample(time, drive, FeedbackStatus.NotSampled, -1, driven ? 0.22 + (0.01 * _random.NextDouble()) : 0, 24, index));
                }
            }

            Moves.Add(new Move
            {
                Number = m + 1,
                Stage = StageKind.Endurance,
                ToPort = Profile.Ports[m % Profile.Ports.Count].Name,
                Direction = DriveDirection.Up,
                TargetCount = Profile.Ring.Place((long)position),
                TravelCounts = (int)(position - begin),
                DriveOnS = on,
                DriveOffS = on + MoveS,
                SettledS = time,
                End = MoveEnd.Landed,
                ExpectedCoastCounts = 0,
                FirstSample = first,
                SampleCount = Trace.Count - first,
            });
        }
    }
}
