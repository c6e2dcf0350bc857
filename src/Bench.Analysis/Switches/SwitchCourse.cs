using Bench.Analysis.Motion;
using Bench.Analysis.Motor;
using Bench.Analysis.Statistics;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Traces;

namespace Bench.Analysis.Switches;

/// <summary>
/// One move of a unit with port switches: which ports it passed, how fast it went from port to port, and how wide the
/// switches closed. A port counts as passed only between two closings of others, at a time that fits arc and speed.
/// </summary>
internal sealed class SwitchCourse
{
    /// <summary>Speeds, as a ratio to nominal, at which the time between two closings tells how many ports lie between.</summary>
    private const double LeastSpeedRatio = 0.6;
    private const double MostSpeedRatio = 1.5;

    private const int LeastRows = 8;

    private readonly Profile _profile;
    private readonly Move _move;
    private readonly SwitchReadings _readings;
    private readonly List<SwitchPass> _passes = [];
    private readonly List<int> _portCounts;
    private readonly double _width;
    private SwitchEdge? _left;
    private SwitchEdge? _first;
    private SwitchEdge? _reached;
    private double _travelled;
    private double _sinceFirst;

    /// <summary>Follows a move.</summary>
    public SwitchCourse(ReadOnlySpan<Sample> slice, Move move, Profile profile)
    {
        _profile = profile;
        _move = move;
        _portCounts = [.. profile.Ports.Select(p => p.Count)];
        _width = profile.SwitchWidthCounts ?? 0;
        _readings = new SwitchReadings(slice);
        SwitchClosing? before = null;
        foreach (SwitchClosing closing in _readings.Closings.Where(c => (c.Closed?.TimeS ?? c.Opened?.TimeS) is not double t || t <= move.DriveOffS))
        {
            if (closing.Closed is not null)
            {
                Reach(before, closing);
            }

            before = closing.Opened is null ? before : closing;
        }

        Widths = [.. _readings.Closings.Select(Width).OfType<SwitchWidth>()];
    }

    /// <summary>Passes, in no particular order.</summary>
    public IReadOnlyList<SwitchPass> Passes => _passes;

    /// <summary>Arcs over which switches were closed in whole passes.</summary>
    public IReadOnlyList<SwitchWidth> Widths { get; }

    /// <summary>Count of the port the unit rests at; null between ports.</summary>
    public int? RestCount => _readings.RestCount;

    /// <summary>Whether the unit turned as driven: a switch opened or closed under the drive.</summary>
    public bool Turned =>
        _move.End is MoveEnd.Landed or MoveEnd.OverTime or MoveEnd.FeedbackLost
        && _readings.Closings.Any(c => Under(c.Closed) || Under(c.Opened));

    /// <summary>When the unit turned steadily, seconds of the run; empty when it did not turn.</summary>
    public (double FromS, double ToS) Steady => Turned ? (_move.DriveOnS + MoveCourse.StartUpS, _move.DriveOffS) : (0, -1);

    /// <summary>
    /// Mean speed from port to port, counts per second, signed; null without two. From closing to closing the way does not
    /// depend on how wide the switches are; only where one closing is all there is, it is from leaving the first, and the
    /// nominal width is taken off.
    /// </summary>
    public double? Speed =>
        _sinceFirst > 0 ? Sign * _sinceFirst / (_reached!.Value.TimeS - _first!.Value.TimeS)
        : _travelled > 0 ? Sign * (_travelled - _width) / (_reached!.Value.TimeS - _left!.Value.TimeS)
        : null;

    /// <summary>That way's time as a ratio to a nominal unit's; null as for <see cref="Speed"/>.</summary>
    public double? TimeRatio => Speed is double v ? _profile.Electrical.RunningSpeedCountsPerS / Math.Abs(v) : null;

    /// <summary>Means of the meters from port to port; null without a speed.</summary>
    public SteadyMeans? Means(MeterRows rows)
    {
        if (Speed is not double speed)
        {
            return null;
        }

        double fromS = (_sinceFirst > 0 ? _first : _left)!.Value.TimeS;
        MeterRows steady = rows.Between(Math.Max(fromS, Steady.FromS), _reached!.Value.TimeS);
        return steady.Length < LeastRows
            ? null
            : new SteadyMeans(Describe.Mean(steady.Currents), Describe.Mean(steady.Voltages), Math.Abs(speed));
    }

    private int Sign => _move.Direction == DriveDirection.Up ? 1 : -1;

    private bool Under(SwitchEdge? edge) => edge is { } e && e.TimeS > _move.DriveOnS && e.TimeS <= _move.DriveOffS;

    // A switch was seen to close. If it is known which port was left before, it is known what lies between.
    private void Reach(SwitchClosing? from, SwitchClosing to)
    {
        double closedS = to.Closed!.Value.TimeS;
        double nominal = _profile.Electrical.RunningSpeedCountsPerS;
        double speed = nominal;
        double leftS = from?.Opened is { } opened ? Math.Max(opened.TimeS, _move.DriveOnS) : double.NaN;
        if (Between(from, to, closedS - leftS) is double arc)
        {
            speed = (arc - _width) / (closedS - leftS);
            _left ??= new SwitchEdge(leftS, from!.Opened!.Value.GapS);
            _travelled += arc;
            _sinceFirst += _first is null ? 0 : arc;
            Pass(from!, leftS, arc, speed);
        }
        else
        {
            _left = _first = null;
            _travelled = _sinceFirst = 0;
        }

        _first ??= to.Closed;
        _reached = to.Closed;
        Sight(to, closedS, speed);
    }

    // Counts from one closing to the next, whole turns included; null when the time fits none.
    private double? Between(SwitchClosing? from, SwitchClosing to, double seconds)
    {
        if (from is null || !(seconds > 0))
        {
            return null;
        }

        int n = _profile.Ring.Counts;
        double nominal = _profile.Electrical.RunningSpeedCountsPerS;
        int arc = Math.Abs(_profile.Ring.Travel(from.Count, to.Count, Sign > 0));
        arc = arc == 0 ? n : arc;
        double turns = Math.Max(0, Math.Round(((nominal * seconds) + _width - arc) / n));
        double counts = arc + (turns * n);
        double ratio = (counts - _width) / seconds / nominal;
        return ratio is >= LeastSpeedRatio and <= MostSpeedRatio ? counts : null;
    }

    private void Pass(SwitchClosing from, double leftS, double arc, double speed)
    {
        for (int port = 0; port < _portCounts.Count; port++)
        {
            double way = Math.Abs(_profile.Ring.Travel(from.Count, _portCounts[port], Sign > 0));
            way = way == 0 ? _profile.Ring.Counts : way;
            for (; way < arc; way += _profile.Ring.Counts)
            {
                double middleS = leftS + ((way - (_width / 2)) / speed);
                Add(port, middleS, speed, sighted: false);
            }
        }
    }

    private void Sight(SwitchClosing closing, double closedS, double speed)
    {
        if (_portCounts.IndexOf(closing.Count) is >= 0 and int port)
        {
            Add(port, closedS + (_width / 2 / speed), speed, sighted: true);
        }
    }

    private SwitchWidth? Width(SwitchClosing closing)
    {
        if (Speed is not double speed || closing is not { Closed: { } a, Opened: { } b } || b.TimeS > _move.DriveOffS || !_portCounts.Contains(closing.Count))
        {
            return null;
        }

        double edgesS = Math.Sqrt((a.UncertaintyS * a.UncertaintyS) + (b.UncertaintyS * b.UncertaintyS));
        return new SwitchWidth(_portCounts.IndexOf(closing.Count), (b.TimeS - a.TimeS) * Math.Abs(speed), edgesS * Math.Abs(speed));
    }

    private void Add(int port, double middleS, double speed, bool sighted)
    {
        double half = _width / 2 / speed;
        double gap = _readings.LongestGapS(middleS - half, Math.Min(middleS + half, _move.DriveOffS));
        double probability = Math.Min(SwitchSightings.MostProbable, _width / speed / gap);
        if (probability > 0 && _readings.IsClean(middleS - (2 * half), middleS + (2 * half)))
        {
            _passes.Add(new SwitchPass(port, sighted, probability));
        }
    }
}
