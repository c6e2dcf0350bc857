using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Running.Moves;

namespace Bench.Running.Landing;

/// <summary>
/// Steers by port switches. Between two ports there is no count, so what a unit is doing there is told by its current and
/// by the time that nominal arc and speed allow. It drives until the target's switch closes, then half of the closed arc
/// further, less the coast.
/// </summary>
internal sealed class SwitchSteering : ISteering
{
    /// <summary>How much longer than at nominal speed a travel may take: half as long again, for a unit that is slow but turns. Common practice, no source.</summary>
    private const double MostTimeRatio = 1.5;

    /// <summary>Start-up and one reading, seconds.</summary>
    private const double StartS = 0.3;

    /// <summary>A closing sooner than in this share of the nominal time is no passage: a switch that bounces or sticks.</summary>
    private const double LeastTimeRatio = 0.5;

    private readonly Profile _profile;
    private readonly double _speed;
    private readonly double _leadS;
    private readonly double _longestArc;
    private MoveCommand? _command;
    private int? _at;
    private double _atS;
    private int _toGo;
    private bool _fromPort;
    private bool _passed;
    private double? _closedS;
    private double _onS;
    private double _heardS;
    private double _changedS;
    private bool _changed;
    private FeedbackReading _last;

    /// <summary>Steers units of a family.</summary>
    /// <param name="profile">Its profile, with port switches.</param>
    public SwitchSteering(Profile profile)
    {
        _profile = profile;
        _speed = profile.Electrical.RunningSpeedCountsPerS;
        double half = (profile.SwitchWidthCounts ?? 0) / 2;
        _leadS = Math.Max(0, (half / _speed) - CoastPredictor.FirstGuessS);
        _longestArc = profile.Ports.Select((p, i) => profile.Ring.Travel(p.Count, profile.Ports[(i + 1) % profile.Ports.Count].Count, up: true)).Max();
    }

    public double? ExpectedCoast => null;

    public Aim Made(Aim aim) => aim;

    public Aim Aim(MoveCommand command, FeedbackReading rest, int? lastCount)
    {
        _command = command;
        _last = rest;
        _at = rest.Ok ? rest.Count : null;

        // From between ports the next one may be any: a whole revolution reaches all.
        Aim aim = rest.Ok
            ? Landing.Aim.From(rest.Count, command, _profile)
            : new Aim(Turn * Math.Max(command.Revolutions, 1), (command.To ?? _profile.Ports[0]).Count, command.Direction);
        _toGo = aim.TravelCounts;
        return aim;
    }

    public void DriveOn(double nowS)
    {
        _onS = _atS = _heardS = _changedS = nowS;
        _fromPort = _at is not null;
        _changed = _passed = false;
        _closedS = null;
    }

    public void Take(double timeS, FeedbackReading reading)
    {
        if (reading.Status != _last.Status || (reading.Ok && reading.Count != _last.Count))
        {
            _changed = true;
            _changedS = timeS;
            if (reading.Ok && _last.Status == FeedbackStatus.BetweenPorts)
            {
                // The edge lies anywhere between the two readings.
                Close(reading.Count, (_heardS + timeS) / 2);
            }
        }

        _last = reading;
        _heardS = timeS;
    }

    public bool TurnedAfter(double flowedS) => _changedS > flowedS + MoveRunner.TurnsWithoutCurrentS;

    public MoveEnd? Failed(double nowS, Func<MoveEnd> motor)
    {
        double stillS = nowS - _changedS;
        if (_passed || nowS > DueS)
        {
            return _changed ? MoveEnd.OverTime : motor();
        }

        if (stillS > LongestS(2 * _longestArc))
        {
            return motor();
        }

        // Sooner only where current alone tells: near stall a motor does not turn. Without current it may have turned
        // unseen, unless it has not even left the switch it stood in.
        return stillS * 1000 <= _profile.Safety.NoMotionMs ? null
            : motor() is var end && (end == MoveEnd.Stalled || (end == MoveEnd.NoCurrent && _fromPort && !_changed)) ? end
            : null;
    }

    public double? OffInS(double nowS, double slotS) =>
        _closedS + _leadS - nowS is double inS && inS < 1.5 * slotS ? inS : null;

    public void DriveOff(double nowS)
    {
    }

    public void Landed()
    {
    }

    private int Turn => _command!.Direction == DriveDirection.Up ? _profile.Ring.Counts : -_profile.Ring.Counts;

    // The target's own time, and one arc more: the next port's switch then says whether the target's was passed.
    private double DueS => _atS + LongestS(Math.Abs(_toGo) + _longestArc);

    private double LongestS(double counts) => (MostTimeRatio * counts / _speed) + StartS;

    private void Close(int count, double edgeS)
    {
        bool up = _command!.Direction == DriveDirection.Up;
        if (_at is not int from)
        {
            int toTarget = _command.To is { } to ? _profile.Ring.Travel(count, to.Count, up) : 0;
            _toGo = toTarget + (Math.Max(_command.Revolutions - 1, 0) * Turn);
        }
        else
        {
            int travelled = count == from ? Turn : _profile.Ring.Travel(from, count, up);
            if (edgeS - _atS < LeastTimeRatio * Math.Abs(travelled) / _speed)
            {
                return;
            }

            _toGo -= travelled;
        }

        _at = count;
        _atS = edgeS;
        if (_closedS is null && _toGo == 0)
        {
            _closedS = edgeS;
        }
        else if (_closedS is null && _toGo * Math.Sign(Turn) < 0)
        {
            _passed = true;
        }
    }
}
