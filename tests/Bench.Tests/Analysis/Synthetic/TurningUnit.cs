using Bench.Analysis.Motion;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Traces;
using CsCheck;

namespace Bench.Tests.Analysis.Synthetic;

/// <summary>One move taken apart, of a unit that turns with jitter, wow and jumps, read at any rates; what features of a move are tried on.</summary>
internal sealed record TurningUnit(MoveReadings Readings, MoveCourse Course)
{
    /// <summary>Any such move.</summary>
    public static Gen<TurningUnit> Any { get; } = Gen.Select(Gen.Int[0, 100000], Gen.Int[20, 700], Gen.Double[0.0005, 0.01], Gen.Int[0, 12], Gen.Bool)
        .Select((seed, readings, periodS, metersBetween, up) => Of(new Random(seed), readings, periodS, metersBetween, up));

    /// <summary>Meter rows of its steady part.</summary>
    public MeterRows Steady => Course.HasSteady ? Readings.Meters.Between(Course.SteadyFromS, Course.SteadyToS) : Readings.Meters.Between(1, 0);

    private static TurningUnit Of(Random random, int readings, double periodS, int metersBetween, bool up)
    {
        Profile profile = Diverter.Profile;
        double speed = 263 * (up ? 1 : -1), t = 1, jumped = 0;
        List<Sample> samples = [];
        DriveState drive = up ? DriveState.Up : DriveState.Down;
        for (int i = 0; i < readings; i++)
        {
            t += periodS * (1 + (0.3 * random.NextDouble()));
            jumped += random.Next(150) == 0 ? random.Next(-6, 7) : 0;
            bool lost = random.Next(60) == 0;
            int place = profile.Ring.Place((long)Math.Floor(400 + (speed * (t - 1)) + (3 * Math.Sin(9 * t)) + jumped));
            samples.Add(new Sample(t, drive, lost ? FeedbackStatus.Silent : FeedbackStatus.Ok, lost ? -1 : place, double.NaN, double.NaN, IndexState.NotSampled));
            for (int k = 0; k < metersBetween; k++)
            {
                // Sometimes late enough to come out of order, as from two links.
                double at = t + (periodS * (k + (random.Next(200) == 0 ? 3 : 0)) / 12);
                samples.Add(new Sample(at, drive, FeedbackStatus.NotSampled, -1, 0.2 + (0.01 * random.NextDouble()), 24, IndexState.Open));
            }
        }

        Move move = new()
        {
            Number = 1,
            Stage = StageKind.Endurance,
            ToPort = profile.Ports[0].Name,
            Direction = up ? DriveDirection.Up : DriveDirection.Down,
            TargetCount = 0,
            TravelCounts = 0,
            DriveOnS = 1,
            DriveOffS = t + 1,
            SettledS = t + 2,
            End = MoveEnd.Landed,
            ExpectedCoastCounts = 0,
            FirstSample = 0,
            SampleCount = samples.Count,
        };
        MoveReadings taken = new();
        taken.Begin(samples.Count, move.DriveOnS, move.DriveOffS, counts: true);
        taken.Add(samples.ToArray());
        return new TurningUnit(taken, new MoveCourse(taken, move, profile));
    }
}
