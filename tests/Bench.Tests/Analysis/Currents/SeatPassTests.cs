using Bench.Analysis.Currents;
using Bench.Analysis.Motion;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Traces;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Currents;

public class SeatPassTests
{
    private const double CountS = 0.0038;
    private const int CountsPerReading = 7;

    // Rounding let the row at one edge of the bump in and not the one at the other: the middle was found 0.25 counts off, and
    // elsewhere where the ring's zero was.
    [Fact]
    public void In_RowsLieOnTheEdgesOfABump_FindsItsMiddleWhereverTheZeroIs() =>
        Assert.All(Enumerable.Range(0, 800), turned => Assert.All(Offs(turned), off => Assert.Equal(0, off, 1e-9)));

    [Fact]
    public void In_TurnAndAQuarterOfARingOfFourPorts_PassesFourSeatsWhole() => Assert.Equal(4, Offs(0).Length);

    private static double[] Offs(int turned)
    {
        Profile profile = Diverter.Profile with
        {
            Ports = [.. Diverter.Profile.Ports.Select(p => p with { Count = Diverter.Profile.Ring.Place(p.Count + turned) })],
        };
        Sample[] samples = [.. Enumerable.Range(0, 1000).Select(count => At(count, turned, profile))];
        Move move = new()
        {
            Number = 1,
            Stage = StageKind.Endurance,
            ToPort = profile.Ports[0].Name,
            Direction = DriveDirection.Up,
            TargetCount = 0,
            TravelCounts = 0,
            DriveOnS = 0,
            DriveOffS = samples[^1].TimeS,
            SettledS = samples[^1].TimeS + 1,
            End = MoveEnd.Landed,
            ExpectedCoastCounts = 0,
            FirstSample = 0,
            SampleCount = samples.Length,
        };
        MoveReadings taken = new();
        taken.Begin(samples.Length, move.DriveOnS, move.DriveOffS, counts: true);
        taken.Add(samples);
        MoveCourse course = new(taken, move, profile);
        return [.. SeatPass.In(course, taken.Meters.Between(course.SteadyFromS, course.SteadyToS), profile).Select(p => p.OffCounts)];
    }

    // Torque rises to each port from either side alike, so that it is found in the middle of it and rows lie on the edges.
    private static Sample At(int count, int turned, Profile profile)
    {
        double current = 0.2 + (0.002 * Math.Max(0, 40 - profile.Ports.Min(p => Math.Abs(profile.Ring.Difference(count + turned, p.Count)))));
        FeedbackStatus feedback = count % CountsPerReading == 0 ? FeedbackStatus.Ok : FeedbackStatus.NotSampled;
        int place = feedback == FeedbackStatus.Ok ? profile.Ring.Place(count + turned) : -1;
        return new Sample(count * CountS, DriveState.Up, feedback, place, current, 24, IndexState.Open);
    }
}
