using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Running.Moves;
using Bench.Running.Sampling;

namespace Bench.Running.Landing;

/// <summary>
/// Steers by a count: switches off ahead of the target by the coast it expects, and keeps what it expected so that the
/// bench's part of the landing error can be told from the unit's.
/// </summary>
internal sealed class CountSteering(Profile profile) : ISteering
{
    /// <summary>Share of its speed that a unit does not keep while it coasts unbraked, its supply open.</summary>
    private const double KeptSpeedShare = 0.5;

    private readonly CoastPredictor _coast = new();
    private readonly MotionTracker _tracker = new(profile.Ring);
    private DriveDirection _direction;
    private int _travel;
    private double _onS;
    private bool _off;
    private double _travelledAtOff;
    private double _speedAtOff;

    public double? ExpectedCoast { get; private set; }

    public Aim Made(Aim aim) => aim;

    private double RunningSpeed => profile.Electrical.RunningSpeedCountsPerS;

    public Aim Aim(MoveCommand command, FeedbackReading rest, int? lastCount)
    {
        Aim aim = Landing.Aim.From(rest.Ok ? rest.Count : lastCount ?? 0, command, profile);
        _direction = command.Direction;
        _travel = aim.TravelCounts;
        return aim;
    }

    public void DriveOn(double nowS)
    {
        _onS = nowS;
        _off = false;
        ExpectedCoast = null;
        _tracker.Reset();
    }

    public void Take(double timeS, FeedbackReading reading)
    {
        if (reading.Ok && (!_off || _tracker.HasReading))
        {
            _tracker.Add(timeS, reading.Count);
        }
    }

    // It is called only when no current has flowed for longer than a unit turns without.
    public bool TurnedAfter(double flowedS) => Math.Abs(_tracker.Speed) > KeptSpeedShare * RunningSpeed;

    public MoveEnd? Failed(double nowS, Func<MoveEnd> motor)
    {
        double stillSince = double.IsNaN(_tracker.MovedS) ? _onS : Math.Max(_onS, _tracker.MovedS);
        return (nowS - stillSince) * 1000 > profile.Safety.NoMotionMs ? motor() : null;
    }

    public double? OffInS(double nowS, double slotS)
    {
        double speed = _tracker.Speed;
        if (!_tracker.HasReading || speed * Math.Sign(_travel) <= 0.25 * RunningSpeed)
        {
            return null;
        }

        double coast = _coast.Expect(_direction, speed);
        double offInS = (_travel - coast - _tracker.TravelledAt(nowS)) / speed;
        if (offInS >= 1.5 * slotS)
        {
            return null;
        }

        ExpectedCoast = _coast.Knows(_direction) ? coast : null;
        return offInS;
    }

    public void DriveOff(double nowS)
    {
        _off = true;
        _travelledAtOff = _tracker.TravelledAt(nowS);
        _speedAtOff = _tracker.Speed;
    }

    public void Landed() => _coast.Add(_direction, _tracker.Travelled - _travelledAtOff, _speedAtOff);
}
