using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Running.Moves;
using Bench.Running.Sampling;

namespace Bench.Running.Landing;

/// <summary>
/// Watches a unit that turns itself to the target it was told: the move is over when the count stands within the landing
/// tolerance, or when the unit came to rest elsewhere by itself, which then is where it landed.
/// </summary>
internal sealed class TargetSteering(Profile profile) : ISteering
{
    /// <summary>How long a count must stand within the tolerance, seconds: longer than a unit takes to turn about.</summary>
    private const double StandS = 0.2;

    /// <summary>Counts that a unit must have turned to have obeyed at all: more than play and a flickering count.</summary>
    private const double LeastTurned = 8;

    private readonly MotionTracker _tracker = new(profile.Ring);
    private int _target;
    private int _count;
    private double _onS;
    private bool _restsElsewhere;

    public double? ExpectedCoast => null;

    private bool Turned => Math.Abs(_tracker.Travelled) >= LeastTurned;

    // The short way round, as such units go; half a turn goes upwards.
    public Aim Aim(MoveCommand command, FeedbackReading rest, int? lastCount)
    {
        _count = rest.Ok ? rest.Count : lastCount ?? 0;
        _target = command.TravelCounts is int travelled
            ? profile.Ring.Place((long)_count + (command.Direction == DriveDirection.Up ? travelled : -travelled))
            : (command.To ?? profile.Ports[0]).Count;
        int travel = profile.Ring.Difference(_target, _count);
        return new Aim(travel, _target, travel < 0 ? DriveDirection.Down : DriveDirection.Up);
    }

    public void DriveOn(double nowS)
    {
        _onS = nowS;
        _restsElsewhere = false;
        _tracker.Reset();
    }

    public void Take(double timeS, FeedbackReading reading)
    {
        if (reading.Ok)
        {
            _count = reading.Count;
            _tracker.Add(timeS, reading.Count);
        }
    }

    // Its own controller ends the current too, and a speed taken over readings from before that says nothing.
    public bool TurnedAfter(double flowedS) => _tracker.MovedS > flowedS + MoveRunner.TurnsWithoutCurrentS;

    public MoveEnd? Failed(double nowS, Func<MoveEnd> motor)
    {
        if (StoodS(nowS) * 1000 <= profile.Safety.NoMotionMs || IsThere)
        {
            return null;
        }

        // It turned, and now takes no current: it takes itself to have arrived.
        MoveEnd end = motor();
        _restsElsewhere = end == MoveEnd.NoCurrent && Turned;
        return _restsElsewhere ? null : end;
    }

    public double? OffInS(double nowS, double slotS) =>
        _restsElsewhere || (_tracker.HasReading && IsThere && StoodS(nowS) >= StandS) ? 0 : null;

    public void DriveOff(double nowS)
    {
    }

    public Aim Made(Aim aim)
    {
        DriveDirection way = !Turned ? aim.Direction : _tracker.Travelled < 0 ? DriveDirection.Down : DriveDirection.Up;
        return way == aim.Direction
            ? aim
            : aim with { Direction = way, TravelCounts = aim.TravelCounts - (Math.Sign(aim.TravelCounts) * profile.Ring.Counts) };
    }

    public void Landed()
    {
    }

    private bool IsThere => Math.Abs(profile.Ring.Difference(_count, _target)) <= profile.LandingToleranceCounts;

    private double StoodS(double nowS) => nowS - (double.IsNaN(_tracker.MovedS) ? _onS : Math.Max(_onS, _tracker.MovedS));
}
