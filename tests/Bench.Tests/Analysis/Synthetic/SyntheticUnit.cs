using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Traces;

namespace Bench.Tests.Analysis.Synthetic;

/// <summary>
/// Makes traces of a unit turning between ports, sampled as a bench would: positions about 136 times a second, meters 45.
/// Just enough physics for the analysis to work on; it proves wiring and arithmetic, not that real units are like this.
/// </summary>
internal sealed class SyntheticUnit(Profile profile, int seed)
{
    private const double Step = 0.0005;
    private const double BackEmfScale = 0.045 * 2 * Math.PI * 230 / 800;

    private readonly Random _random = new(seed);
    private readonly int _n = profile.Ring.Counts;
    private double _timeS;
    private double _position = 0.5;
    private double _speed;
    private long _held;
    private double _driveSince = double.NegativeInfinity;
    private int _slot;
    private double _nextPosition;
    private double _nextMeter = double.PositiveInfinity;

    public Trace Trace { get; } = new();

    public List<Move> Moves { get; } = [];

    public HashSet<int> Dead { get; init; } = [];

    public HashSet<int> Dirty { get; init; } = [];

    public double DirtySeen { get; init; } = 0.3;

    /// <summary>Encoder minus shaft as a function of move number and direction (+1, -1), counts.</summary>
    public Func<int, int, double> Lead { get; init; } = (_, _) => 0;

    public Func<double, bool> FeedbackFails { get; init; } = _ => false;

    public Func<double, bool> CurrentGone { get; init; } = _ => false;

    public Func<double, double> Friction { get; init; } = _ => 0.22;

    public double CurrentScale { get; init; } = 1;

    public double SourceOhm { get; init; } = 0.4;

    /// <summary>Whether the seats' torque lies at the shaft, as in a valve, and not at the encoder.</summary>
    public bool SeatsFollowShaft { get; init; }

    /// <summary>Open supply as a function of move number, volts.</summary>
    public Func<int, double> Supply { get; init; } = _ => 24;

    public double IndexAt { get; init; } = 100;

    public double IndexWidth { get; init; } = 20;

    public bool Locked { get; init; }

    public int StartCount
    {
        init
        {
            _position = value + 0.5;
            _held = value;
        }
    }

    /// <summary>Rest in the supply stage.</summary>
    public SyntheticUnit Rest(double seconds)
    {
        double until = _timeS + seconds;
        while (_timeS < until)
        {
            Advance(0);
        }

        return this;
    }

    /// <summary>Two revolutions, every ordered pair of ports each way, then whole turns that end at every port.</summary>
    public SyntheticUnit WholeRoutine(int enduranceMoves = 24)
    {
        int[] directions = profile.CanReverse ? [1, -1] : [1];
        Rest(1.0);
        Go(StageKind.Homing, profile.Ports[0], 1, 2);
        int at = 0;
        int ports = profile.Ports.Count;
        for (int from = 0; from < ports; from++)
        {
            for (int hop = 1; hop < ports; hop++)
            {
                foreach (int direction in directions)
                {
                    int to = (from + hop) % ports;
                    Go(StageKind.PortMoves, profile.Ports[to], direction, 0);
                    Go(StageKind.PortMoves, profile.Ports[from], direction, 0);
                }
            }

            at = (from + 1) % ports;
            Go(StageKind.PortMoves, profile.Ports[at], 1, 0);
        }

        for (int i = 0; i < enduranceMoves; i++)
        {
            at = (at + 1) % ports;
            Go(StageKind.Endurance, profile.Ports[at], directions[i / 2 % directions.Length], 1);
        }

        return this;
    }

    /// <summary>One move to a port.</summary>
    public Move Go(StageKind stage, Port to, int direction, int revolutions, MoveEnd? forced = null)
    {
        int first = Trace.Count;
        Rest(0.06);
        long start = _held;
        int travel = profile.Ring.Travel(profile.Ring.Place(start), to.Count, direction > 0);
        if (travel == 0 && revolutions == 0)
        {
            travel = direction * _n;
        }

        travel += direction * revolutions * _n;
        double on = _timeS;
        _driveSince = on;
        double off = double.PositiveInfinity;
        double speed = 262;
        while (_timeS < off && _timeS < on + (Locked || forced is not null ? 0.5 : 20))
        {
            bool read = Advance(direction);
            double left = Math.Abs(start + travel - _held) - 7.0 - 0.5;
            if (read && direction * (_held - start) > 0 && left / speed < 0.010)
            {
                off = _timeS + Math.Max(0, left / speed);
            }
        }

        double offAt = Math.Min(off, _timeS);
        _driveSince = double.NegativeInfinity;
        Rest(0.35);
        Move move = new()
        {
            Number = Moves.Count + 1,
            Stage = stage,
            ToPort = to.Name,
            Direction = direction > 0 ? DriveDirection.Up : DriveDirection.Down,
            TargetCount = to.Count,
            TravelCounts = travel,
            DriveOnS = on,
            DriveOffS = offAt,
            SettledS = _timeS,
            End = forced ?? (Locked ? MoveEnd.Stalled : MoveEnd.Landed),
            ExpectedCoastCounts = direction * 7.0,
            FirstSample = first,
            SampleCount = Trace.Count - first,
        };
        Moves.Add(move);
        return move;
    }

    // One step of time; true when a position was read.
    private bool Advance(int direction)
    {
        double current = direction == 0 || CurrentGone(_timeS) ? 0 : Locked ? 2.0 : Load(SeatsFollowShaft ? _position - Lead(Moves.Count + 1, direction) : _position);
        double volts = Supply(Moves.Count + 1) - (SourceOhm * current);
        double target = direction == 0 || Locked ? 0 : direction * (volts - (12 * current)) / BackEmfScale;
        double tau = direction == 0 ? 7.0 / 262 : 0.02;
        _speed += (target - _speed) * Step / tau;
        Cross(_position, _position + (_speed * Step), Math.Sign(_speed));
        _position += _speed * Step;
        _timeS += Step;
        DriveState drive = direction == 0 ? DriveState.Off : direction > 0 ? DriveState.Up : DriveState.Down;
        if (_timeS >= _nextMeter)
        {
            _nextMeter = double.PositiveInfinity;
            double inrush = 1.5 * Math.Exp(-(_timeS - _driveSince) / 0.01);
            double amperes = current > 0 ? current + inrush + (0.003 * Normal()) : 0;
            Trace.Add(new Sample(_timeS, drive, FeedbackStatus.NotSampled, -1, Math.Round(amperes * CurrentScale / 0.0005) * 0.0005, Math.Round(volts / 0.01) * 0.01, Index(direction)));
        }

        if (_timeS < _nextPosition)
        {
            return false;
        }

        _slot++;
        _nextPosition = _timeS + 0.0059 + (0.0006 * _random.NextDouble()) + (_slot % 3 == 0 ? 0.004 : 0);
        _nextMeter = _slot % 3 == 0 ? _timeS + 0.005 : _nextMeter;
        bool fails = FeedbackFails(_timeS);
        Trace.Add(new Sample(_timeS, drive, fails ? FeedbackStatus.Silent : FeedbackStatus.Ok, fails ? -1 : profile.Ring.Place(_held), double.NaN, double.NaN, IndexState.NotSampled));
        return !fails;
    }

    private double Load(double shaft)
    {
        double seat = profile.Ports.Max(p => Math.Max(0, 1 - (Math.Abs(profile.Ring.Difference(profile.Ring.Place(shaft), p.Count)) / 20)));
        return Friction(profile.Ring.Place(_position)) + (0.08 * seat);
    }

    private void Cross(double from, double to, int sign)
    {
        long last = (long)Math.Floor(to);
        for (long c = (long)Math.Floor(from); c != last;)
        {
            c += sign;
            int place = profile.Ring.Place(c);
            if (!Dead.Contains(place) && !(Dirty.Contains(place) && _random.NextDouble() > DirtySeen))
            {
                _held = c;
            }
        }
    }

    private IndexState Index(int direction)
    {
        double shaft = _position - Lead(Moves.Count + 1, direction);
        return Math.Abs(profile.Ring.Difference(profile.Ring.Place(shaft), IndexAt + 0.5)) <= IndexWidth / 2 ? IndexState.Closed : IndexState.Open;
    }

    private double Normal() =>
        Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());
}
