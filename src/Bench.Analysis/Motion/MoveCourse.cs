using Bench.Analysis.Statistics;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;

namespace Bench.Analysis.Motion;

/// <summary>Position readings of one move, unwrapped by speed and time (C2), and its steady part.</summary>
internal sealed class MoveCourse
{
    /// <summary>Time from drive on until speed counts as steady, seconds: ten mechanical time constants of a small gearmotor, and the relay's own time. Common practice, no source.</summary>
    public const double StartUpS = 0.15;

    /// <summary>Readings that make a steady part.</summary>
    public const int LeastReadings = 8;

    private const int LeastTravel = 8;
    private const int LeastStart = 3;
    private const double LineSpanS = 0.06;

    /// <summary>Readings whose pairs tell the speed near an instant; their number is squared, and in the middle of them the speed says little of the place.</summary>
    private const int MostInPairs = 64;

    private readonly MoveReadings _readings;
    private readonly double[] _counts;
    private readonly int _n;
    private double? _speed;
    private (int First, int Count, StraightLine Line) _near;

    /// <summary>Follows the readings of a move.</summary>
    /// <param name="readings">They.</param>
    /// <param name="move">The move.</param>
    /// <param name="profile">The family.</param>
    /// <param name="room">Room for the counts, at least as long as there are readings; null for room of its own.</param>
    public MoveCourse(MoveReadings readings, Move move, Profile profile, double[]? room = null)
    {
        Move = move;
        Sign = move.Direction == DriveDirection.Up ? 1 : -1;
        _readings = readings;
        _n = readings.Times.Length;
        _counts = room ?? new double[_n];
        Unwrap(profile);
        (SteadyFirst, SteadyLast) = FindSteady();
    }

    /// <summary>The move.</summary>
    public Move Move { get; }

    /// <summary>+1 towards rising counts, -1 towards falling.</summary>
    public int Sign { get; }

    /// <summary>Times of readings, seconds.</summary>
    public ReadOnlySpan<double> Times => _readings.Times;

    /// <summary>Unwrapped counts, whole numbers; the first lies on the ring.</summary>
    public ReadOnlySpan<double> Counts => _counts.AsSpan(0, _n);

    /// <summary>Failed attempts between a reading and the one before.</summary>
    public ReadOnlySpan<int> FailedBefore => _readings.FailedBefore;

    /// <summary>First reading of the steady part.</summary>
    public int SteadyFirst { get; }

    /// <summary>Last reading of the steady part.</summary>
    public int SteadyLast { get; }

    /// <summary>Whether there is a steady part.</summary>
    public bool HasSteady => SteadyLast > SteadyFirst;

    /// <summary>Whether the unit turned as driven, so that the steady part says how it turns.</summary>
    public bool Turned => HasSteady && Move.End is MoveEnd.Landed or MoveEnd.OverTime or MoveEnd.FeedbackLost;

    /// <summary>When the steady part begins, seconds.</summary>
    public double SteadyFromS => Times[SteadyFirst];

    /// <summary>When it ends, seconds.</summary>
    public double SteadyToS => Times[SteadyLast];

    /// <summary>Speed over the steady part, counts per second, signed (least squares); null without one.</summary>
    public double? Speed()
    {
        if (HasSteady && _speed is null)
        {
            int n = SteadyLast - SteadyFirst + 1;
            _speed = StraightLine.LeastSquares(Times.Slice(SteadyFirst, n), Counts.Slice(SteadyFirst, n)).Slope;
        }

        return _speed;
    }

    /// <summary>Position at an instant in the steady part by a robust line through the readings near it; null where there are too few.</summary>
    /// <param name="timeS">The instant.</param>
    /// <param name="spanS">Readings this far before and after are used, seconds.</param>
    public double? At(double timeS, double spanS = LineSpanS)
    {
        if (!HasSteady)
        {
            return null;
        }

        int first = Lower(timeS - spanS, SteadyFirst);
        int n = first > SteadyLast ? 0 : Rising.FirstAfter(Times[first..(SteadyLast + 1)], timeS + spanS);
        if (n < 4)
        {
            return null;
        }

        // Two samples of a stream lie between the same readings more often than not.
        if (_near.First != first || _near.Count != n)
        {
            _near = (first, n, StraightLine.Robustly(Times.Slice(first, n), Counts.Slice(first, n), MostInPairs));
        }

        return _near.Line.At(timeS);
    }

    /// <summary>Position at an instant between two readings of the steady part, by interpolation; null outside.</summary>
    public double? Between(double timeS)
    {
        if (!HasSteady || timeS < SteadyFromS || timeS > SteadyToS)
        {
            return null;
        }

        int after = Math.Max(Lower(timeS, SteadyFirst), SteadyFirst + 1);
        double t0 = Times[after - 1];
        double t1 = Times[after];
        return _counts[after - 1] + ((_counts[after] - _counts[after - 1]) * (timeS - t0) / (t1 - t0));
    }

    /// <summary>Count at rest after the drive went off, unwrapped: the middle of the last three readings; null when there are none.</summary>
    public long? Landing()
    {
        int first = Lower(Move.DriveOffS, 0);
        return first >= _n ? null : (long)Math.Round(Robust.Median(Counts[Math.Max(first, _n - 3)..]));
    }

    private int Lower(double timeS, int from) => Math.Max(Rising.FirstFrom(Times, timeS), from);

    // To the turn of the ring that lies nearest to where the unit should be by speed and time.
    private void Unwrap(Profile profile)
    {
        ReadOnlySpan<double> times = _readings.Times;
        ReadOnlySpan<int> places = _readings.Places;
        Span<double> counts = _counts.AsSpan(0, _n);
        double speed = Sign * profile.Electrical.RunningSpeedCountsPerS;
        double nearly = (profile.Ring.Counts / 2.0) - 1;
        double last = _n > 0 ? places[0] : 0;
        for (int i = 0; i < counts.Length; i++)
        {
            if (i > 0)
            {
                double driven = Math.Min(times[i], Move.DriveOffS) - Math.Max(times[i - 1], Move.DriveOnS);
                double expected = last + (speed * Math.Max(driven, 0));

                // On the turn of the reading before, unless that is more than nearly half a turn off.
                last += places[i] - places[i - 1];
                if (Math.Abs(last - expected) > nearly)
                {
                    last = Math.Round(expected + profile.Ring.Difference(places[i], profile.Ring.Place(expected)));
                }
            }

            counts[i] = last;
        }
    }

    private (int First, int Last) FindSteady()
    {
        int first = Lower(Move.DriveOnS + StartUpS, 0);
        int last = Lower(Move.DriveOffS, 0) - 1;
        while (first < _n && Sign * (_counts[first] - _counts[0]) < LeastStart)
        {
            first++;
        }

        // A unit that stopped under drive is steady only up to a little before it stopped.
        int moving = last;
        while (moving > first && _counts[moving - 1] == _counts[last])
        {
            moving--;
        }

        if (moving < last - 3)
        {
            last = moving - 3;
        }

        bool enough = last - first + 1 >= LeastReadings && Sign * (_counts[last] - _counts[first]) >= LeastTravel;
        return enough ? (first, last) : (0, -1);
    }
}
