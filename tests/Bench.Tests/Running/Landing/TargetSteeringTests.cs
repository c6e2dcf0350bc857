using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Running.Landing;
using Bench.Running.Moves;
using Bench.Tests.Running.Kinds;

namespace Bench.Tests.Running.Landing;

/// <summary>Watching a unit that turns itself, reading by reading. Ports at 0, 200, 400, 600 of 800; tolerance 5.</summary>
public class TargetSteeringTests
{
    private static readonly Profile Router = KindRun.Profile("feed-router-4");
    private readonly TargetSteering _steering = new(Router);

    [Theory]
    [InlineData(0, "B", 200, DriveDirection.Up)]
    [InlineData(0, "D", -200, DriveDirection.Down)]
    [InlineData(0, "C", 400, DriveDirection.Up)]
    [InlineData(795, "A", 5, DriveDirection.Up)]
    public void Aim_AnyTarget_IsTheShortWay(int from, string to, int travel, DriveDirection direction)
    {
        Aim aim = Begin(from, to);
        Assert.Equal((travel, direction), (aim.TravelCounts, aim.Direction));
    }

    [Fact]
    public void Off_StandsWithinTolerance_ComesAfterAWhileOnly()
    {
        Begin(0, "B");
        Turn(0.05, 0, 197);
        double arrivedS = 0.05 + (197 / 263.0);
        Stand(arrivedS, arrivedS + 0.15, 197);
        Assert.Null(_steering.OffInS(arrivedS + 0.15, 0.01));
        Stand(arrivedS + 0.15, arrivedS + 0.25, 197);
        Assert.Equal(0, _steering.OffInS(arrivedS + 0.25, 0.01));
    }

    [Fact]
    public void Off_PassesTheTargetInMotion_DoesNotCome()
    {
        Begin(0, "B");
        Turn(0.05, 0, 200);
        Assert.Null(_steering.OffInS(0.05 + (200 / 263.0), 0.01));
    }

    [Theory]
    [InlineData(MoveEnd.NoCurrent, true)]
    [InlineData(MoveEnd.Stalled, false)]
    [InlineData(MoveEnd.CountStill, false)]
    public void Failed_TurnedAndStandsElsewhere_HasLandedThereWhenItTakesNoCurrent(MoveEnd motor, bool landed)
    {
        Begin(0, "B");
        Turn(0.05, 0, 160);
        double stoppedS = 0.05 + (160 / 263.0);
        Stand(stoppedS, stoppedS + 0.45, 160);
        Assert.Null(_steering.Failed(stoppedS + 0.35, () => motor));
        Assert.Equal(landed ? null : motor, _steering.Failed(stoppedS + 0.45, () => motor));
        Assert.Equal(landed ? 0.0 : null, _steering.OffInS(stoppedS + 0.45, 0.01));
    }

    [Fact]
    public void Failed_NeverTurned_IsWhatTheMotorSays()
    {
        Begin(0, "B");
        Stand(0.05, 0.5, 0);
        Assert.Equal(MoveEnd.NoCurrent, _steering.Failed(0.5, () => MoveEnd.NoCurrent));
        Assert.Null(_steering.OffInS(0.5, 0.01));
    }

    [Fact]
    public void Made_WentTheOtherWayRound_SaysSo()
    {
        Aim aim = Begin(0, "C");
        Turn(0.05, 0, -398);
        Assert.Equal(new Aim(-400, 400, DriveDirection.Down), _steering.Made(aim));
    }

    [Fact]
    public void TurnedAfter_FeedbackSilentSinceTheCurrentEnded_SaysNothing()
    {
        Begin(0, "C");
        Turn(0.05, 0, 200);
        double lastS = 0.05 + (200 / 263.0);
        Assert.False(_steering.TurnedAfter(lastS - (0.9 * MoveRunner.TurnsWithoutCurrentS)));
        Assert.True(_steering.TurnedAfter(lastS - (1.1 * MoveRunner.TurnsWithoutCurrentS)));
    }

    private Aim Begin(int from, string to)
    {
        Aim aim = _steering.Aim(new MoveCommand(StageKind.PortMoves, DriveDirection.Up, null, Router.Ports.Single(p => p.Name == to), 0, 0.35), At(from), null);
        _steering.DriveOn(0);
        return aim;
    }

    private void Turn(double fromS, int from, int counts)
    {
        for (int i = 0; i <= Math.Abs(counts); i += 2)
        {
            _steering.Take(fromS + (i / 263.0), At(Router.Ring.Place((long)from + (Math.Sign(counts) * i))));
        }
    }

    private void Stand(double fromS, double toS, int count)
    {
        for (double s = fromS; s <= toS; s += 0.01)
        {
            _steering.Take(s, At(count));
        }
    }

    private static FeedbackReading At(int count) => new(FeedbackStatus.Ok, count, 0, 0);
}
