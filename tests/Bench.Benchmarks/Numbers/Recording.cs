using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Traces;

namespace Bench.Benchmarks.Numbers;

/// <summary>A long made-up run of a diverter that turns through four revolutions in every move.</summary>
internal sealed class Recording
{
    private const double SpeedCountsPerS = 263;
    private const double MoveS = 12.2;
    private const double RestS = 0.5;
    private readonly Random _random = new(1);
    private readonly double _slotS;
    private readonly double _jitterS;

    /// <summary>As a bench polls: positions 136 times a second, meters 45.</summary>
    public static Recording Polled(int moves) => new(moves, 0.0055, 0.0007, positionEvery: 1, metersAfter: 3, meterS: 0.005);

    /// <summary>As streaming instruments give it: current 5000 times a second, positions 1000 times.</summary>
    public static Recording Streamed(int moves) => new(moves, 0.0001, 0, positionEvery: 10, metersAfter: 2, meterS: 0);

    private Recording(int moves, double slotS, double jitterS, int positionEvery, int metersAfter, double meterS)
    {
        _slotS = slotS;
        _jitterS = jitterS;
        double time = 0;
        double position = 0;
        int slot = 0;
        for (int m = 0; m < moves; m++)
        {
            int first = Trace.Count;
            double on = time + 0.05;
            double begin = position;
            for (; time < on + MoveS + RestS; time += _slotS + (_jitterS * _random.NextDouble()), slot++)
            {
                position = At(begin, time - on);
                if (slot % positionEvery == 0)
                {
                    Trace.Add(new Sample(
                        time, Drive(time - on), FeedbackStatus.Ok, Profile.Ring.Place((long)position), double.NaN, double.NaN, IndexState.NotSampled));
                }

                if (slot % metersAfter == metersAfter - 1)
                {
                    time += meterS;
                    position = At(begin, time - on);
                    bool closed = Math.Abs(Profile.Ring.Difference(Profile.Ring.Place(position), 100)) < 10;
                    Trace.Add(new Sample(
                        time, Drive(time - on), FeedbackStatus.NotSampled, -1, Current(time - on), Voltage(), closed ? IndexState.Closed : IndexState.Open));
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

    /// <summary>The profile, that of the diverter.</summary>
    public Profile Profile { get; } = ProfileReader.Read(
        File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "nutrient-diverter-4.toml")), "nutrient-diverter-4.toml");

    /// <summary>The trace.</summary>
    public Trace Trace { get; } = new();

    /// <summary>Its moves.</summary>
    public List<Move> Moves { get; } = [];

    private static double At(double begin, double sinceOn) => begin + (SpeedCountsPerS * Math.Clamp(sinceOn, 0, MoveS));

    private static DriveState Drive(double sinceOn) => sinceOn is >= 0 and < MoveS ? DriveState.Up : DriveState.Off;

    private double Current(double sinceOn) => sinceOn is >= 0 and < MoveS ? 0.22 + (0.01 * _random.NextDouble()) : 0;

    private double Voltage() => 24 + (0.01 * _random.NextDouble());
}
