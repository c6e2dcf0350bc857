using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Running.Landing;
using Bench.Running.Moves;
using Bench.Tests.Running.Kinds;

namespace Bench.Tests.Running.Landing;

/// <summary>Steering by port switches, reading by reading.</summary>
public class SwitchSteeringTests
{
    private static readonly Profile Mist = KindRun.Profile("mist-selector-4"); // 0, 180, 360, 540 of 720; 242 counts/s
    private readonly SwitchSteering _steering = new(Mist);

    [Fact]
    public void Off_TargetCloses_ComesHalfTheArcLaterLessTheCoast()
    {
        Aim aim = Begin(from: 0, to: "South", DriveDirection.Up);
        Assert.Equal(360, aim.TravelCounts);
        Between(0.10);
        Closed(0.69, 180);
        Between(0.78);
        Between(1.42);
        Assert.Null(_steering.OffInS(1.43, 0.01));
        Closed(1.44, 360);

        // The edge lies between 1.42 and 1.44; 12 counts at 242 counts/s are 50 ms, less 30 ms of coast.
        Assert.Equal(1.43 + (12 / 242.0) - 0.030 - 1.44, _steering.OffInS(1.44, 0.02)!.Value, 1e-9);
    }

    [Fact]
    public void Failed_NextPortClosesInsteadOfTarget_IsOverTimeAtOnce()
    {
        Begin(from: 0, to: "East", DriveDirection.Up);
        Between(0.10);
        Assert.Null(Failed(1.40, MoveEnd.CountStill));
        Closed(1.45, 360);
        Assert.Equal(MoveEnd.OverTime, Failed(1.46, MoveEnd.CountStill));
        Assert.Null(_steering.OffInS(1.46, 0.02));
    }

    [Fact]
    public void Failed_SwitchBouncesOnLeaving_IsNoPassage()
    {
        Begin(from: 0, to: "West", DriveDirection.Up);
        Between(0.08);
        Closed(0.09, 0);
        Between(0.10);
        Closed(0.70, 180);
        Assert.Null(Failed(0.71, MoveEnd.CountStill));
        Assert.Null(_steering.OffInS(0.71, 0.02));
    }

    [Fact]
    public void Failed_BetweenPorts_GoesByCurrent()
    {
        Begin(from: 0, to: "South", DriveDirection.Up);
        Between(0.10);
        Assert.Null(Failed(0.49, MoveEnd.Stalled)); // 400 ms have not passed since it moved
        Assert.Equal(MoveEnd.Stalled, Failed(0.51, MoveEnd.Stalled));
        Assert.Null(Failed(0.51, MoveEnd.CountStill)); // turning, as far as the current says
        Assert.Null(Failed(0.51, MoveEnd.NoCurrent)); // it has left its switch: a dead meter, perhaps
    }

    [Fact]
    public void Failed_NothingChangesWhileTwoArcsShouldHavePassed_IsWhatTheMotorSays()
    {
        Begin(from: 0, to: "South", DriveDirection.Up);
        Assert.Equal(MoveEnd.NoCurrent, Failed(0.5, MoveEnd.NoCurrent));
        Assert.Null(Failed(2.5, MoveEnd.CountStill)); // 1.5 · 360/242 + 0.3 = 2.53 s
        Assert.Equal(MoveEnd.CountStill, Failed(2.6, MoveEnd.CountStill));
    }

    [Fact]
    public void Off_FromBetweenPorts_TakesTheFirstPortForItsPlace()
    {
        Aim aim = Begin(from: null, to: "East", DriveDirection.Down);
        Assert.Equal((-720, 180), (aim.TravelCounts, aim.TargetCount));
        Closed(0.40, 360);
        Between(0.50);
        Assert.Null(_steering.OffInS(0.51, 0.02));
        Closed(1.15, 180);
        Assert.NotNull(_steering.OffInS(1.15, 0.02));
    }

    [Fact]
    public void Off_TwoRevolutions_CountsTheTargetsClosings()
    {
        Begin(from: 0, to: "North", DriveDirection.Up, revolutions: 2);
        double s = 0.1;
        for (int i = 1; i <= 8; i++)
        {
            Between(s);
            s += 180 / 242.0;
            Closed(s, 180 * i % 720);
            Assert.Equal(i == 8, _steering.OffInS(s, 0.02) is not null);
            s += 0.1;
        }
    }

    private Aim Begin(int? from, string to, DriveDirection direction, int revolutions = 0)
    {
        MoveCommand command = new(StageKind.PortMoves, direction, null, Mist.Ports.Single(p => p.Name == to), revolutions, 0.35);
        Aim aim = _steering.Aim(command, from is int count ? At(count) : default(FeedbackReading) with { Status = FeedbackStatus.BetweenPorts }, null);
        _steering.DriveOn(0);
        return aim;
    }

    private MoveEnd? Failed(double nowS, MoveEnd motor) => _steering.Failed(nowS, () => motor);

    private void Between(double timeS) => _steering.Take(timeS, new FeedbackReading(FeedbackStatus.BetweenPorts, 0, 0, 0));

    private void Closed(double timeS, int count) => _steering.Take(timeS, At(count));

    private static FeedbackReading At(int count) => new(FeedbackStatus.Ok, count, 0, 0);
}
